"""The five-step method: cases, steps, routes and comfort."""
