package main

import (
	"fmt"
	"strings"
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
)

// TestBrowserSearchesEveryListThatIsLongerThanAScreen measures jobs, pieces and pack list on a phone of 390 by 844
// pixels: a list whose end is below the tabs can be searched, and one of three rows has no search.
func TestBrowserSearchesEveryListThatIsLongerThanAScreen(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", false)
	p := newPhone(t, t.TempDir(), browsertest.Optimised)
	p.join(server.link, "")
	p.until(`location.pathname === '/'`)
	for n := 1; n <= 7; n++ {
		at := p.imports(server, `"pieces":[`+rows(n, `{"id":"p%[1]d","name":"Garland %[1]d","kind":"garland",
			"length_mm":3000,"recipe":"2x11@10","colours":[{"colour":"coral","weight":1}]}`)+`]`)
		if n >= 3 {
			p.open(server.address + at + "/pieces")
			p.searchesWhatIsLonger("#pieces > li", n)
			p.open(server.address + "/")
			p.searchesWhatIsLonger(".list > li:has(.jobrow)", n)
		}
	}
	for n := 3; n <= 6; n++ {
		at := p.imports(server, `"added":[`+rows(n, `{"id":"a%[1]d","list":"pack","text":"Box %[1]d"}`)+`]`)
		p.open(server.address + at + "/pack")
		p.searchesWhatIsLonger(".tickrow", n)
	}
}

// imports makes a job and returns its address.
func (p *phone) imports(server *running, more string) string {
	p.t.Helper()
	p.open(server.address + "/import")
	p.ready()
	p.fill(`#import textarea`, `{"garlandry":1,"brief":{"title":"Summer fair","date":"2027-05-08",
		"doors":"2027-05-08T11:30","venue":"Town library"},
		"colours":[{"id":"coral","name":"Coral","value":"#e5604d","sizes":[5,11,18]}],`+more+`}`)
	p.tap(`#import button.go`)
	p.until(`location.pathname.startsWith('/jobs/')`)
	return p.text(`location.pathname`)
}

func rows(n int, row string) string {
	all := make([]string, n)
	for i := range all {
		all[i] = fmt.Sprintf(row, i+1)
	}
	return strings.Join(all, ",")
}

// searchesWhatIsLonger waits for n rows and measures where they would end without a search.
func (p *phone) searchesWhatIsLonger(rows string, n int) {
	p.t.Helper()
	p.ready()
	p.until(fmt.Sprintf(`document.querySelectorAll('%s').length === %d`, rows, n))
	measured := p.text(`(() => {
		const last = [...document.querySelectorAll('` + rows + `')].at(-1).getBoundingClientRect().bottom + scrollY;
		const height = (x) => document.querySelector(x)?.getBoundingClientRect().height ?? 0;
		const tabs = document.querySelector('#nav').getBoundingClientRect().top;
		return (document.querySelector('#find') ? 'search' : 'none') +
			(last - height('#find-form') - height('.found') > tabs ? ' longer ' : ' fits ') + last + ' of ' + tabs;
	})()`)
	assert.NotRegexp(p.t, "none longer", measured, "%s, %d rows: %s", rows, n, measured)
	if n == 3 {
		assert.Regexp(p.t, "none fits", measured, "%s: %s", rows, measured)
	}
	p.t.Log(rows, n, measured)
}
