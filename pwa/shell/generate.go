package shell

//go:generate go run ./bundle
