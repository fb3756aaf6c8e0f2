package main

import (
	"fmt"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// addressFile is the file in the data directory with the last address of the server. Links from the command line lead
// there.
const addressFile = "address"

// noServerYet is the address of links if no server has run with the data.
const noServerYet = "http://127.0.0.1:8080"

// saveAddress stores the address of the server.
func saveAddress(dir, address string) error {
	if err := os.WriteFile(filepath.Join(dir, addressFile), []byte(address+"\n"), 0o600); err != nil {
		return fmt.Errorf("save the address: %w", err)
	}
	return nil
}

// addresses returns where people can open the app: the base URL, or the address the server listens on. If it listens on
// every interface, the list has localhost first and then each interface.
func (c *serveCommand) addresses(listening net.Addr, own func() ([]net.Addr, error)) []string {
	if c.BaseURL != "" {
		return []string{strings.TrimRight(c.BaseURL, "/")}
	}
	scheme := "http://"
	if c.TLSCert != "" {
		scheme = "https://"
	}
	at, isTCP := listening.(*net.TCPAddr)
	if !isTCP || !at.IP.IsUnspecified() {
		return []string{scheme + listening.String()}
	}
	port := strconv.Itoa(at.Port)
	all := []string{scheme + net.JoinHostPort("127.0.0.1", port)}
	found, err := own()
	if err != nil { // localhost still works
		return all
	}
	var six []string
	for _, a := range found {
		network, isNetwork := a.(*net.IPNet)
		switch {
		case !isNetwork || !network.IP.IsGlobalUnicast():
		case network.IP.To4() != nil:
			all = append(all, scheme+net.JoinHostPort(network.IP.String(), port))
		case at.IP.To4() == nil:
			six = append(six, scheme+net.JoinHostPort(network.IP.String(), port))
		}
	}
	if len(all) > 1 { // IPv4 addresses are short to type and scan
		return all
	}
	return append(all, six...)
}

// ownAddresses returns the addresses of this machine's interfaces that are up.
func ownAddresses() ([]net.Addr, error) { return net.InterfaceAddrs() }

// lastAddress returns the stored address, [noServerYet] if there is none or it is invalid.
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
