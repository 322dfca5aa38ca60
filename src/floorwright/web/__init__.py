"""The local app. Empty until that part is built."""
