package main

import (
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestBrowserLateWorkIsResubmittedAfterARestore restores a backup made before a phone with a closed link submitted
// three operations. The journal is lost as well. The phone submits them again, so three wait for the owner as before.
func TestBrowserLateWorkIsResubmittedAfterARestore(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "Desk")
	id := anyJob(t, owner, server.address)
	share := func(path string, fields ...string) {
		t.Helper()
		answer, err := owner.PostForm(server.address+"/jobs/"+id+"/share"+path, pairs(fields))
		require.NoError(t, err)
		page := document(t, answer)
		require.Equal(t, 200, answer.StatusCode, page.Text())
	}
	answer, err := owner.PostForm(server.address+"/jobs/"+id+"/share/new",
		pairs([]string{"name", "Ines", "role", "helper"}))
	require.NoError(t, err)
	link := document(t, answer).Find("#fresh-url").AttrOr("value", "")
	require.NotEmpty(t, link)
	f := newFront(t, server.address)
	p := newPhone(t, t.TempDir())
	p.join(f.URL+link[strings.Index(link, "/j#"):], "Ines")
	p.ready()
	p.sees("All shared")
	p.open(f.URL + "/jobs/" + id + "/cards")
	p.ready()
	p.open(p.text(`document.querySelector('a[href*="/cards/make/"]').href`))
	p.ready()
	f.signal(false)
	for range 3 {
		tapAdd(p, 1)
	}
	answer, err = owner.Get(server.address + "/jobs/" + id + "/share")
	require.NoError(t, err)
	share("/end", "link", document(t, answer).Find(`form[action$="/share/end"] input[name="link"]`).AttrOr("value", ""))
	backup := filepath.Join(t.TempDir(), "backup")
	require.NoError(t, copyData(stdio{strings.NewReader(""), io.Discard, io.Discard}, server.dir, backup))
	held := func() int { return heldOps(t, owner, server.address) }
	require.Zero(t, held())
	f.signal(true)
	p.wake()
	require.Eventually(t, func() bool { return held() == 3 }, 30*time.Second, 100*time.Millisecond,
		"it waits for the owner")
	p.until(`!document.querySelector('#page h1') || !location.pathname.includes('/cards/') ||
		document.body.innerText.includes('ended')`)
	p.open(f.URL + "/calc")
	p.ready()

	server.stop()
	restoreOver(t, server.dir, backup)
	again := startServer(t, server.dir, server.host(), false)
	require.Equal(t, server.address, again.address)
	require.Zero(t, held(), "as it was when the backup was made")
	p.wake()
	require.Eventually(t, func() bool { return held() == 3 }, 30*time.Second, 100*time.Millisecond,
		"it is submitted again")
	wakeThrice(t, p, f)
	asked, _, _ := f.count()
	assert.NotContains(t, asked, "/api/v1/jobs/"+id+"/sync", "once, not over and over")
	assert.Equal(t, 3, held())
}

// heldOps returns how many operations of the first job wait for the owner.
func heldOps(t *testing.T, owner *http.Client, address string) int {
	t.Helper()
	var me struct {
		Jobs []struct {
			ID   string
			Held int
		}
	}
	getJSON(t, owner, address+"/api/v1/me", &me)
	require.NotEmpty(t, me.Jobs)
	return me.Jobs[0].Held
}

// restoreOver deletes the database and its journal, and restores a backup in their place.
func restoreOver(t *testing.T, dir, backup string) {
	t.Helper()
	lost, err := filepath.Glob(filepath.Join(dir, "ops-*.ndjson"))
	require.NoError(t, err)
	require.NotEmpty(t, lost)
	for _, name := range append(lost, filepath.Join(dir, "garlandry.db")) {
		require.NoError(t, os.Remove(name))
	}
	restore := restoreCommand{dataFlag: dataFlag{Data: dir}, File: backup}
	require.NoError(t, restore.Run(stdio{strings.NewReader(""), io.Discard, io.Discard}))
}

// wakeThrice brings the page back into view three times and waits for its request each time.
func wakeThrice(t *testing.T, p *phone, f *front) {
	t.Helper()
	for range 3 {
		f.count()
		p.wake()
		f.hears(t, "/api/v1/me")
	}
}
