package serve_test

import (
	"net/http"
	"strings"
	"testing"

	"garlandry/pwa/serve"

	"github.com/stretchr/testify/assert"
)

// sent holds the headers by which a browser says where a post comes from; "" means that it leaves the header out.
type sent struct{ site, origin string }

// formOf returns what a browser sends with a plain form of a page of ours under a referrer policy, by the fetch
// standard: over plain http Sec-Fetch-Site only to the machine itself, and the origin as the policy wants it.
func formOf(policy, scheme, host string) sent {
	s := sent{origin: scheme + "://" + host}
	if policy == "no-referrer" {
		s.origin = "null"
	}
	if scheme == "https" || strings.HasPrefix(host, "127.0.0.1") || strings.HasPrefix(host, "localhost") {
		s.site = "same-origin"
	}
	return s
}

// posting is a post to a server with its own address, over https if secure, and whether it is accepted.
type posting struct {
	name   string
	secure bool
	host   string
	sent   sent
	passes bool
}

// foreignPosts lists what other sites, or pages in our name, can make a browser send.
func foreignPosts(lan, public string) []posting {
	return []posting{
		{"another site, http in a network", false, lan, sent{"", "http://evil.example"}, false},
		{"another site that hides its origin, http", false, lan, sent{"", "null"}, false},
		{"a sandboxed frame or a data address", true, public, sent{"cross-site", "null"}, false},
		{"another site, https", true, public, sent{"cross-site", "https://evil.example"}, false},
		{"another site that lies in Origin", true, public, sent{"cross-site", "https://" + public}, false},
		{"a neighbour under the same domain", true, public, sent{"same-site", "https://shop.balloons.example"}, false},
		{"another port of the machine", false, lan, sent{"", "http://192.168.1.20:9000"}, false},
		{"another port of localhost", false, "localhost:8080", sent{"same-site", "http://localhost:9000"}, false},
		{"the https port of the machine", false, lan, sent{"", "https://192.168.1.20"}, false},
		{"an http page in our name, old header", true, public, sent{"", "http://" + public}, false},
		{"an http page in our name", true, public, sent{"cross-site", "http://" + public}, false},
		{"a host that begins like ours", false, lan, sent{"", "http://192.168.1.20:80801"}, false},
		{"our host as user name", false, lan, sent{"", "http://" + lan + "@evil.example"}, false},
		{"a file", false, lan, sent{"", "file://"}, false},
		{"nonsense", false, lan, sent{"", "http://%zz"}, false},
		{"a value that no standard knows", true, public, sent{"same-origin, cross-site", ""}, false},
	}
}

// TestEveryBrowserMayPostAndNoOtherSite checks the headers that browsers send over http in a network and over https.
// Chromium, Firefox and Safari from 16.4 on agree on them: Sec-Fetch-Site only where the page counts as secure, Origin
// with every post.
func TestEveryBrowserMayPostAndNoOtherSite(t *testing.T) {
	const lan, public = "192.168.1.20:8080", "balloons.example"
	policy := newSite(t).stranger().get("/j").Header.Get("Referrer-Policy")
	for _, row := range append(foreignPosts(lan, public), []posting{
		{"a form over http in a network", false, lan, formOf(policy, "http", lan), true},
		{"a form over https", true, public, formOf(policy, "https", public), true},
		{"a form on the machine itself", false, "127.0.0.1:8080", formOf(policy, "http", "127.0.0.1:8080"), true},
		{"a form to localhost", false, "localhost:8080", formOf(policy, "http", "localhost:8080"), true},
		{"a form to an IPv6 address", false, "[2001:db8::5]:8080", formOf(policy, "http", "[2001:db8::5]:8080"), true},
		{"a script's post over http", false, lan, sent{"", "http://" + lan}, true},
		{"a script's post over https", true, public, sent{"same-origin", "https://" + public}, true},
		{"https ends at a proxy with its own address", false, public, sent{"same-origin", "https://" + public}, true},
		{"https at a proxy that drops Sec-Fetch-Site", true, public, sent{"", "https://" + public}, true},
		{"a page loaded again by hand", true, public, sent{"none", "https://" + public}, true},
		{"no browser at all", false, lan, sent{"", ""}, true},
	}...) {
		t.Run(row.name, func(t *testing.T) {
			s := newSite(t, func(c *serve.Config) {
				if row.secure {
					c.BaseURL = "https://" + public
				}
			})
			r := s.stranger().request("POST", "/j", strings.NewReader("code=nosuchcode&name=Ines"))
			r.Host = row.host
			r.Header.Set("Content-Type", formType)
			for name, value := range map[string]string{"Sec-Fetch-Site": row.sent.site, "Origin": row.sent.origin} {
				if value != "" {
					r.Header.Set(name, value)
				}
			}
			want := http.StatusForbidden
			if row.passes {
				want = http.StatusNotFound // there is no such link
			}
			assert.Equal(t, want, s.stranger().send(r).StatusCode)
		})
	}
}

// TestPagesSayWhatPlainHTTPCannotDo checks that the pages people join by name the limits of plain http in a network,
// and promise work without signal only where it can be had.
func TestPagesSayWhatPlainHTTPCannotDo(t *testing.T) {
	for _, row := range []struct {
		name, base, host, forwarded string
		plain                       bool
	}{
		{"an address in the network", "", "192.168.1.20:8080", "", true},
		{"a name in the network", "", "garland.local:8080", "", true},
		{"a name without a port", "", "garland.local", "", true},
		{"IPv6", "", "[2001:db8::5]:8080", "", true},
		{"the machine itself", "", "127.0.0.1:8080", "", false},
		{"the machine itself by IPv6", "", "[::1]:8080", "", false},
		{"localhost", "", "localhost:8080", "", false},
		{"https", "https://balloons.example", "balloons.example", "", false},
		{"https that ends at a proxy", "", "balloons.example", "https", false},
		{"a base address of plain http", "http://balloons.example", "balloons.example", "", true},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newSite(t, func(c *serve.Config) { c.BaseURL = row.base })
			for _, path := range []string{"/j", "/j?as=owner", "/scan"} {
				r := s.stranger().request("GET", path, nil)
				r.Host = row.host
				if row.forwarded != "" {
					r.Header.Set("X-Forwarded-Proto", row.forwarded)
				}
				doc := s.stranger().send(r).doc(t)
				want := 0
				if row.plain {
					want = 1
				}
				assert.Equal(t, want, doc.Find("#plain-http").Length(), path)
				if path != "/j?as=owner" {
					assert.Equal(t, !row.plain, strings.Contains(doc.Text(), "Work without signal"), path)
				}
			}
		})
	}
}
