"""As-laid readings against control and rules. Empty until that part is built."""
