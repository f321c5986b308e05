package tell
