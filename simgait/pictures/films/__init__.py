"""Stance films for showing: limbs side by side or overlaid, curves growing beside them."""
