"""How the program looks: colours, type, rules on the screen's own pixels."""
