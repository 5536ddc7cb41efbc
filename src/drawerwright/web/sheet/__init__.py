"""The drawing sheet that answers: what is asked, where views and notes stand, what is drawn and told."""
