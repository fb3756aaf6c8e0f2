package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/url"
)

// Validate refuses flags that cannot work before anything is written. The command library calls it.
func (c *serveCommand) Validate() error {
	if _, _, err := net.SplitHostPort(c.Addr); err != nil {
		return fmt.Errorf("--addr %q is not a host and a port, such as 127.0.0.1:8080: %w", c.Addr, err)
	}
	if c.BaseURL != "" {
		u, err := url.Parse(c.BaseURL)
		if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Path != "" && u.Path != "/" {
			return fmt.Errorf("--base-url %q must be like https://balloons.example, without a path", c.BaseURL)
		}
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
