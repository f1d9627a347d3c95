"""What the command line says, one module for each command."""
