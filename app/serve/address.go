package serve

import (
	"fmt"
	"net"
	"strings"

	"github.com/labstack/echo/v4"
)

// addressExtractor gives how a visitor's address is found: from the connection, or from X-Forwarded-For as far as the
// named proxies wrote it.
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
