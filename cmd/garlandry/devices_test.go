package main

import (
	"bytes"
	"net"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCLIDevicesAreListedAndEnded checks that the command line lists and ends the owner's devices, whether or not a
// server runs.
func TestCLIDevicesAreListedAndEnded(t *testing.T) {
	dir := t.TempDir()
	server := startServer(t, dir, "", false)
	phone := visitor(t, server.link, "Old phone")
	code, out, complaint := cli("invite", "--data", dir)
	require.Equal(t, 0, code, complaint)
	visitor(t, regexp.MustCompile(`http://\S+#\S+`).FindString(out), "New phone")
	status := func() int {
		answer, err := phone.Get(server.address + "/")
		require.NoError(t, err)
		require.NoError(t, answer.Body.Close())
		return answer.StatusCode
	}
	list := func() string {
		code, out, complaint := cli("invite", "--data", dir, "--list")
		require.Equal(t, 0, code, complaint)
		assert.NotContains(t, out, "owner#", "no link is made")
		return out
	}
	line := regexp.MustCompile(`(?m)^(\w+) +Old phone .*$`)
	found := line.FindStringSubmatch(list())
	require.NotNil(t, found, list())
	assert.Contains(t, list(), "New phone")
	assert.Equal(t, http.StatusOK, status())
	code, _, complaint = cli("invite", "--data", dir, "--end", "nosuch")
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "nosuch")
	assert.Contains(t, complaint, "--list")
	code, _, complaint = cli("invite", "--data", dir, "--end", found[1], "--list")
	assert.Equal(t, 2, code, complaint)
	assert.Equal(t, http.StatusOK, status())
	code, out, complaint = cli("invite", "--data", dir, "--end", found[1])
	require.Equal(t, 0, code, complaint)
	assert.Contains(t, out, "Ended")
	assert.Equal(t, http.StatusForbidden, status(), "the running server applies it at once")
	server.stop()
	assert.Contains(t, line.FindString(list()), "ended", "also without a server")
	code, _, complaint = cli("invite", "--data", t.TempDir(), "--list")
	assert.Equal(t, 2, code, complaint)
}

// TestServePrintsItsAddresses checks that a server that listens on every interface prints its addresses and says that
// phones need TLS to work offline.
func TestServePrintsItsAddresses(t *testing.T) {
	network := func(text string) net.Addr {
		ip, n, err := net.ParseCIDR(text)
		require.NoError(t, err)
		return &net.IPNet{IP: ip, Mask: n.Mask}
	}
	interfaces := []net.Addr{network("127.0.0.1/8"), network("192.0.2.7/24"), network("169.254.3.4/16"),
		network("2001:db8::7/64"), network("fe80::1/64"), network("::1/128")}
	six := []net.Addr{network("127.0.0.1/8"), network("2001:db8::7/64"), network("fe80::1/64")}
	const hint = "--tls-cert and --tls-key"
	for _, row := range []struct {
		name    string
		command serveCommand
		listen  *net.TCPAddr
		own     []net.Addr
		want    []string
		hinted  bool
	}{
		{"this machine alone", serveCommand{}, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8080}, interfaces,
			[]string{"http://127.0.0.1:8080"}, false},
		{"every interface", serveCommand{}, &net.TCPAddr{IP: net.IPv6zero, Port: 8080}, interfaces,
			[]string{"http://127.0.0.1:8080", "http://192.0.2.7:8080"}, true},
		{"every interface, IPv4", serveCommand{}, &net.TCPAddr{IP: net.IPv4zero, Port: 8080}, interfaces,
			[]string{"http://127.0.0.1:8080", "http://192.0.2.7:8080"}, true},
		{"IPv6 only", serveCommand{}, &net.TCPAddr{IP: net.IPv6zero, Port: 8080}, six,
			[]string{"http://127.0.0.1:8080", "http://[2001:db8::7]:8080"}, true},
		{"no interface", serveCommand{}, &net.TCPAddr{IP: net.IPv6zero, Port: 8080}, nil,
			[]string{"http://127.0.0.1:8080"}, false},
		{"TLS", serveCommand{TLSCert: "cert.pem"},
			&net.TCPAddr{IP: net.IPv6zero, Port: 443},
			interfaces, []string{"https://127.0.0.1:443", "https://192.0.2.7:443"}, false},
		{"behind a proxy", serveCommand{BaseURL: "https://balloons.example/"},
			&net.TCPAddr{IP: net.IPv6zero, Port: 8080}, interfaces,
			[]string{"https://balloons.example"}, false},
		{"one interface", serveCommand{}, &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 8080}, interfaces,
			[]string{"http://192.0.2.7:8080"}, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := row.command.addresses(row.listen, func() ([]net.Addr, error) { return row.own, nil })
			assert.Equal(t, row.want, got)
			var out bytes.Buffer
			welcome(&out, got, "/j?as=owner#token", "DIR")
			for _, address := range row.want {
				assert.Contains(t, out.String(), " "+address+"\n")
			}
			assert.Contains(t, out.String(), " "+row.want[0]+"/j?as=owner#token\n")
			assert.Contains(t, out.String(), " "+row.want[len(row.want)-1]+"/j?as=owner#token\n")
			assert.Equal(t, row.hinted, strings.Contains(out.String(), hint))
			assert.NotContains(t, out.String(), "[::]")
		})
	}
}
