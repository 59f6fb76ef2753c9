"""The reader of sets: one line photographed under one light or several from one camera position, read as one."""
