package main

import (
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onTheNetwork starts a server on every interface and returns it with the address that phones on the network use.
func onTheNetwork(t *testing.T) (server *running, address string) {
	t.Helper()
	server = startServer(t, t.TempDir(), "0.0.0.0:0", true)
	_, port, err := net.SplitHostPort(server.host())
	require.NoError(t, err)
	own, err := ownAddresses()
	require.NoError(t, err)
	for _, a := range own {
		if network, is := a.(*net.IPNet); is && network.IP.To4() != nil && network.IP.IsGlobalUnicast() {
			return server, "http://" + net.JoinHostPort(network.IP.String(), port)
		}
	}
	t.Skip("this machine has no address besides its loopback: connect it to a network, then go test ./cmd/garlandry")
	return nil, ""
}

// TestBrowserJoinsOverTheNetwork joins over plain http at the address that serve prints for phones, as an owner and as
// a helper, and ticks there. The referrer goes to no other site.
func TestBrowserJoinsOverTheNetwork(t *testing.T) {
	inBrowser(t)
	server, address := onTheNetwork(t)
	require.Contains(t, server.printed, address+"/j?as=owner#")
	owner := newPhone(t, t.TempDir())
	owner.open(strings.Replace(server.link, server.address, address, 1))
	require.Equal(t, "false", owner.text(`isSecureContext`))
	assert.Contains(t, server.printed, "plain http")
	owner.sees("Others on this network can read what you send")
	owner.join(strings.Replace(server.link, server.address, address, 1), "")
	owner.sees("Reading room")

	id := owner.text(`document.querySelector('a[href^="/jobs/"]').pathname.split('/')[2]`)
	owner.open(address + "/jobs/" + id + "/share")
	owner.fill(`#share-new [name=name]`, "Ines")
	owner.tap(`#share-new button[type=submit]`)
	owner.until(`document.querySelector('#fresh-url')`)
	helper := newPhone(t, t.TempDir())
	helper.join(owner.text(`document.querySelector('#fresh-url').value`), "Ines")
	helper.until(`location.pathname.endsWith('/next')`)
	helper.until(`document.querySelector('#offline')?.innerText.includes('Needs signal: this address is plain http')`)
	helper.tap(`#page form:has([name=act]) button`)
	helper.until(`document.querySelector('#page').innerText.includes('Ines')`)

	heard := make(chan string, 10)
	other := httptest.NewServer(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		heard <- r.Header.Get("Referer")
	}))
	defer other.Close()
	helper.text(`(() => { const link = document.createElement('a'); link.href = '` + other.URL + `/';
		document.body.append(link); link.click(); })()`)
	assert.Empty(t, <-heard, "another site learns the address of the page")
}
