"""The plate's card: small questions, large answers."""
