package serve

import (
	"fmt"
	"net"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"
)

// address returns the base of links to this app: the base URL, a name that the certificate is for, or the address of
// this machine that the visitor connected to. It never trusts any other Host header: a foreign name would end up in
// links that people trust. A visitor on this machine gets an address that phones can reach too, if there is one.
func (s *Server) address(c echo.Context) string {
	if s.BaseURL != "" {
		return s.BaseURL
	}
	scheme := "http://"
	if s.TLS {
		scheme = "https://"
	}
	r := c.Request()
	if s.OwnName != nil && s.OwnName(hostName(r.Host)) {
		return scheme + r.Host
	}
	local, known := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	if known && !local.IP.IsLoopback() && local.Zone == "" || len(s.Addresses) == 0 && known {
		return scheme + local.String()
	}
	if len(s.Addresses) > 0 {
		return s.Addresses[len(s.Addresses)-1]
	}
	return scheme + "localhost"
}

// hostName returns a host without its port.
func hostName(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		return name
	}
	return host
}

// addressExtractor returns how to find a visitor's address: from the connection, or from the part of X-Forwarded-For
// that the named proxies wrote.
func addressExtractor(proxies []string) (echo.IPExtractor, error) {
	if len(proxies) == 0 {
		return echo.ExtractIPDirect(), nil
	}
	trust := []echo.TrustOption{echo.TrustLoopback(false), echo.TrustLinkLocal(false), echo.TrustPrivateNet(false)}
	for _, p := range proxies {
		text := p
		if !strings.Contains(text, "/") {
			text += "/32"
			if strings.Contains(p, ":") {
				text = p + "/128"
			}
		}
		_, network, err := net.ParseCIDR(text)
		if err != nil {
			return nil, fmt.Errorf("%q is not an address or a network such as 10.0.0.1 or 10.0.0.0/8", p)
		}
		trust = append(trust, echo.TrustIPRange(network))
	}
	return echo.ExtractIPFromXFFHeader(trust...), nil
}
