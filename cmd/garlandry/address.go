package main

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
)

// addressFile holds, in the data directory, the address that the server last announced: links made by the command line
// lead there.
const addressFile = "address"

// noServerYet is where a link leads when no server has run with the data.
const noServerYet = "http://127.0.0.1:8080"

// keepAddress keeps the address that the server announces.
func keepAddress(dir, address string) error {
	if err := os.WriteFile(filepath.Join(dir, addressFile), []byte(address+"\n"), 0o600); err != nil {
		return fmt.Errorf("keep the address: %w", err)
	}
	return nil
}

// lastAddress gives the address that was announced last, or [noServerYet] if none was or what is kept is no address.
func lastAddress(dir string) string {
	data, err := os.ReadFile(filepath.Join(dir, addressFile))
	if err != nil {
		return noServerYet
	}
	address := strings.TrimSpace(string(data))
	if u, err := url.Parse(address); err != nil || u.Host == "" || u.Scheme != "http" && u.Scheme != "https" {
		return noServerYet
	}
	return address
}
