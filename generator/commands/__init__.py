"""One module a verb of the command line; each exports a click command named `command`."""
