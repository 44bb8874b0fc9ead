"""What must be held, and what screws and boards hold, by NDS or Eurocode 5.

May import: mechanics, records.
"""
