"""Which circuit each outlet is on, how it is protected, and where it sits in the panel."""
