package app

// Version names the build: its date and commit. The packages stamp it.
var Version = "built from source"
