package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"

	"garlandry/pwa/shell"

	"github.com/stretchr/testify/require"
)

// built holds the server binaries that tests run as processes. Each is built once.
var built = struct {
	sync.Mutex
	dir  string
	made map[string]string
}{made: map[string]string{}}

func TestMain(m *testing.M) {
	code := m.Run()
	if built.dir != "" {
		_ = os.RemoveAll(built.dir)
	}
	os.Exit(code)
}

// binary builds the server from this source. With an edition, the style sheet names it and nothing else differs, so
// that the binary looks like a later commit.
func binary(t *testing.T, edition string) string {
	t.Helper()
	built.Lock()
	defer built.Unlock()
	if built.dir == "" {
		dir, err := os.MkdirTemp("", "garlandry-test-")
		require.NoError(t, err)
		built.dir = dir
	}
	if built.made[edition] == "" {
		to := filepath.Join(built.dir, "garlandry"+edition)
		args := []string{"build", "-o", to}
		if edition != "" {
			args = append(args, "-overlay", overlay(t, edition))
		}
		out, err := exec.Command("go", append(args, ".")...).CombinedOutput()
		require.NoError(t, err, string(out))
		built.made[edition] = to
	}
	return built.made[edition]
}

// overlay has the compiler embed another index and style sheet than those in static/gen.
func overlay(t *testing.T, edition string) string {
	t.Helper()
	gen, err := filepath.Abs("../../static/gen")
	require.NoError(t, err)
	data, err := os.ReadFile(filepath.Join(gen, shell.IndexFile))
	if os.IsNotExist(err) {
		t.Skip("static/gen is empty, so there is nothing to update: run go generate ./... first")
	}
	require.NoError(t, err)
	var index shell.Index
	require.NoError(t, json.Unmarshal(data, &index))
	old := index.Build
	index.Build = fmt.Sprintf("%.11s%s", old, edition)
	replace := map[string]string{}
	put := func(name string, content []byte) {
		to := filepath.Join(built.dir, edition+"-"+name)
		require.NoError(t, os.WriteFile(to, content, 0o600))
		replace[filepath.Join(gen, name)] = to
	}
	for i, a := range index.Assets {
		index.Assets[i].URL = strings.Replace(a.URL, "/a/"+old+"/", "/a/"+index.Build+"/", 1)
		if strings.HasSuffix(a.URL, "/css/app.css") {
			css, err := os.ReadFile(filepath.Join(gen, a.File))
			require.NoError(t, err)
			css = append(css, ":root{--edition:"+edition+"}\n"...)
			index.Assets[i].Bytes, index.Assets[i].Brotli, index.Assets[i].Gzip = len(css), 0, 0
			put(a.File, css)
		}
	}
	require.Len(t, replace, 1, "must replace one style sheet")
	data, err = json.Marshal(index)
	require.NoError(t, err)
	put(shell.IndexFile, data)
	list, err := json.Marshal(map[string]any{"Replace": replace})
	require.NoError(t, err)
	file := filepath.Join(built.dir, edition+".json")
	require.NoError(t, os.WriteFile(file, list, 0o600))
	return file
}

// process is a server that runs in a process of its own.
type process struct {
	t       *testing.T
	command *exec.Cmd
	address string
	link    string
	printed string // printed before the server was ready
	errors  *strings.Builder
	ended   chan error
	over    bool
}

// announced matches the line that prints the app's address.
var announced = regexp.MustCompile(`^Garlandry is at\s+(http://\S+)$`)

var ownerLink = regexp.MustCompile(`(http://\S+)/j\?as=owner#\S+`)

// startProcess runs a binary's serve command until it is ready, and gets an owner link: the printed one, or one from
// the invite command if the owner has a device.
func startProcess(t *testing.T, file, dir, address string, more ...string) *process {
	t.Helper()
	if address == "" {
		address = "127.0.0.1:0"
	}
	p := &process{t: t, errors: &strings.Builder{}, ended: make(chan error, 1)}
	p.command = exec.Command(file, append([]string{"serve", "--data", dir, "--addr", address}, more...)...)
	p.command.Stderr = p.errors
	out, err := p.command.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, p.command.Start())
	t.Cleanup(p.kill)
	lines := bufio.NewScanner(out)
	up := false
	for !up && lines.Scan() {
		p.printed += lines.Text() + "\n"
		if found := ownerLink.FindStringSubmatch(lines.Text()); found != nil && p.link == "" {
			p.link = found[0]
		}
		if found := announced.FindStringSubmatch(lines.Text()); found != nil {
			p.address = found[1]
		}
		up = strings.HasPrefix(lines.Text(), "Stop with Ctrl-C")
	}
	go func() {
		_, _ = io.Copy(io.Discard, out) // a full pipe would block the server
		p.ended <- p.command.Wait()
	}()
	if !up {
		p.over = true
		t.Fatalf("the server ended before it was up: %v\n%s", <-p.ended, p.errors)
	}
	if p.link == "" && !strings.Contains(p.printed, "nothing can be saved") { // a full disk allows no link
		p.link = invite(t, file, dir, p.address)
	}
	return p
}

func (p *process) host() string { return strings.TrimPrefix(p.address, "http://") }

// stop asks the server to stop, as Ctrl-C does.
func (p *process) stop() {
	p.t.Helper()
	if !p.over {
		p.over = true
		require.NoError(p.t, p.command.Process.Signal(syscall.SIGINT))
		require.NoError(p.t, <-p.ended, p.errors.String())
	}
}

// kill ends the server with SIGKILL, like a power cut.
func (p *process) kill() {
	if !p.over {
		p.over = true
		_ = p.command.Process.Kill() // it may have ended already
		<-p.ended
	}
}

// anyJob returns the id of the first job on the owner's list.
func anyJob(t *testing.T, c *http.Client, address string) string {
	t.Helper()
	answer, err := c.Get(address + "/")
	require.NoError(t, err)
	href, there := document(t, answer).Find(`a[href^="/jobs/"]`).First().Attr("href")
	require.True(t, there, "the demo job is on the list")
	return strings.Split(href, "/")[2]
}

// invite has the binary make an owner link.
func invite(t *testing.T, file, dir, address string) string {
	t.Helper()
	out, err := exec.Command(file, "invite", "--data", dir, "--address", address).CombinedOutput()
	require.NoError(t, err, string(out))
	link := ownerLink.FindString(string(out))
	require.NotEmpty(t, link, string(out))
	return link
}
