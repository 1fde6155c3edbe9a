"""What a client is shown: tones of wood and finish, what differs from what they said yes to."""
