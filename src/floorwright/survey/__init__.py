"""From readings to a plan: least squares over what was measured, with accuracy and suspects."""
