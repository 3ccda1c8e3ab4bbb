"""The component kinds and systems that come with gudgeon, through the same door as a stranger's."""
