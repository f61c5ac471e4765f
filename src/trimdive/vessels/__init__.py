"""What stays dry and bears the pressure: strength, seals, and the air inside."""
