package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"

	"garlandry/pwa/serve"
)

// Validate rejects flags that cannot work before anything is written. The command library calls it.
func (c *serveCommand) Validate() error {
	if _, port, err := net.SplitHostPort(c.Addr); err != nil {
		return fmt.Errorf("--addr %q is not a host and a port, such as 127.0.0.1:8080: %w", c.Addr, err)
	} else if _, err := net.LookupPort("tcp", port); err != nil {
		return fmt.Errorf("--addr %q: a port is a number from 0 to 65535, such as in 127.0.0.1:8080: %w", c.Addr, err)
	}
	if err := serve.CheckAddresses(c.BaseURL, nil); err != nil {
		return fmt.Errorf("--base-url %q: %w", c.BaseURL, err)
	}
	if err := serve.CheckAddresses("", c.Proxy); err != nil {
		return fmt.Errorf("--proxy: %w", err)
	}
	if (c.TLSCert == "") != (c.TLSKey == "") {
		return errors.New("--tls-cert and --tls-key go together")
	}
	if c.TLSCert != "" {
		if _, err := tls.LoadX509KeyPair(c.TLSCert, c.TLSKey); err != nil {
			return fmt.Errorf("--tls-cert and --tls-key cannot be used: %w", err)
		}
	}
	return nil
}
