"""The working screen: a local web app over the same functions as the command line."""
