package main

import (
	"bytes"
	"errors"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nobody is the user id that a test run by root switches to when it needs a user without write access.
const nobody = 65534

// ends runs the binary until it exits. It fails if the binary does not exit by itself.
func ends(t *testing.T, command *exec.Cmd) (code int, out, complaint string) {
	t.Helper()
	var o, e bytes.Buffer
	command.Stdout, command.Stderr = &o, &e
	require.NoError(t, command.Start())
	late := time.AfterFunc(20*time.Second, func() { _ = command.Process.Kill() })
	err := command.Wait()
	require.True(t, late.Stop(), "it did not end by itself: %s%s", o.String(), e.String())
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return command.ProcessState.ExitCode(), o.String(), e.String()
}

// openDir returns a directory that any user may enter, unlike the test's own.
func openDir(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "garlandry-open-")
	require.NoError(t, err)
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	require.NoError(t, os.Chmod(dir, 0o755))
	return dir
}

func TestServerRefusesWhatItCannotWrite(t *testing.T) {
	place := openDir(t)
	file := filepath.Join(place, "garlandry")
	content, err := os.ReadFile(binary(t, ""))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, content, 0o755))
	made := filepath.Join(place, "made")
	require.NoError(t, os.CopyFS(made, os.DirFS(madeData(t))))
	empty := filepath.Join(place, "empty")
	require.NoError(t, os.Mkdir(empty, 0o755))
	for _, dir := range []string{made, empty} {
		require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() {
				return os.Chmod(path, 0o555)
			}
			return os.Chmod(path, 0o444)
		}))
		t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	}
	plain := filepath.Join(place, "plain")
	require.NoError(t, os.WriteFile(plain, []byte("a file"), 0o644))
	for name, dir := range map[string]string{"read-only and empty": empty, "read-only with data": made,
		"inside a read-only one": filepath.Join(empty, "data"), "a file": plain} {
		t.Run(name, func(t *testing.T) {
			before := listing(t, place)
			command := exec.Command(file, "serve", "--data", dir, "--addr", "127.0.0.1:0")
			if os.Geteuid() == 0 {
				command.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
			}
			code, out, complaint := ends(t, command)
			assert.Equal(t, 1, code)
			assert.Contains(t, complaint, dir)
			assert.NotContains(t, complaint, "goroutine ")
			assert.NotContains(t, out, "owner#")
			assert.Equal(t, before, listing(t, place), "nothing was left behind")
		})
	}
}

func listing(t *testing.T, dir string) string {
	t.Helper()
	var names []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		names = append(names, path)
		return err
	}))
	return strings.Join(names, "\n")
}

func TestServerRefusesDataInUseByAnotherProcess(t *testing.T) {
	file, dir := binary(t, ""), t.TempDir()
	server := startProcess(t, file, dir, "", "--demo")
	code, out, complaint := ends(t, exec.Command(file, "serve", "--data", dir, "--addr", "127.0.0.1:0"))
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "in use by another process")
	assert.Contains(t, complaint, dir)
	assert.NotContains(t, out, "owner#")
	code, out, complaint = ends(t, exec.Command(file, "serve", "--data", t.TempDir(), "--addr", server.host()))
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, server.host())
	assert.NotContains(t, out, "owner#")
	visitor(t, server.link, "") // the first server still works
}

func TestServerRefusesFlags(t *testing.T) {
	file := binary(t, "")
	for name, flags := range map[string][]string{
		"unknown flag":       {"--colour", "red"},
		"no such port":       {"--addr", "127.0.0.1:99999"},
		"port that is none":  {"--addr", "127.0.0.1:http-ish"},
		"no port":            {"--addr", "127.0.0.1"},
		"flag without value": {"--addr"},
		"something more":     {"now"},
		"proxy that is none": {"--proxy", "my proxy"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "data")
			code, out, complaint := ends(t, exec.Command(file, append([]string{"serve", "--data", dir}, flags...)...))
			assert.Equal(t, 2, code, complaint)
			assert.NotEmpty(t, complaint)
			assert.NotContains(t, complaint, "goroutine ")
			assert.NotContains(t, out, "owner#")
			assert.NoDirExists(t, dir, "nothing was made")
		})
	}
}

// TestServerOnAFullDisk fills the disk of a running server. It acknowledges only what it can store, keeps what it has
// stored, and goes on when there is room again. A full disk without data stops a start; one with data does not.
func TestServerOnAFullDisk(t *testing.T) {
	file, disk := binary(t, ""), t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=2m"); err != nil {
		t.Skipf("mounting a small disk needs root (%v); run as root: go test ./cmd/garlandry -run FullDisk", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(disk, syscall.MNT_DETACH)) })
	ballast := filepath.Join(disk, "ballast")
	dir := filepath.Join(disk, "data")
	refusesToStart(t, file, dir, ballast)

	server := startProcess(t, file, dir, "", "--demo")
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	note := func(n uint64) (wire.Result, int) { return hundredNotes(t, owner, server.address, id, n) }
	result, _ := note(0)
	require.Equal(t, wire.OK, result)
	kept := records(t, owner, server.address, id)
	fill(t, ballast)
	status, batches := http.StatusOK, uint64(1)
	for ; status == http.StatusOK && batches < 40; batches++ { // free pages in the database still hold a few
		_, status = note(batches)
	}
	assert.Equal(t, http.StatusInsufficientStorage, status)
	answer, err := owner.PostForm(server.address+"/jobs/"+id+"/do", url.Values{"act": {"tick"}, "e": {"card/load"}})
	require.NoError(t, err)
	page := document507(t, answer)
	assert.Contains(t, page, "room", "the page must name the reason")
	full := records(t, owner, server.address, id)
	assert.GreaterOrEqual(t, len(full), len(kept), "reading must still work")
	assert.Equal(t, len(kept)+int(batches-2)*100, len(full), "it must hold exactly what was acknowledged")

	require.NoError(t, os.Remove(ballast))
	result, status = note(batches)
	assert.Equal(t, http.StatusOK, status)
	assert.Equal(t, wire.OK, result)
	assert.Len(t, records(t, owner, server.address, id), len(full)+100)
	server.stop()
	again := startProcess(t, file, dir, server.host())
	assert.Len(t, records(t, owner, again.address, id), len(full)+100)
	again.stop()

	fill(t, ballast)
	third := startProcess(t, file, dir, server.host())
	assert.Contains(t, third.printed, "nothing can be saved")
	assert.Contains(t, third.printed, "Make room")
	assert.Empty(t, third.link)
	assert.Len(t, records(t, owner, third.address, id), len(full)+100, "stored records must be readable")
	assert.Contains(t, pageText(t, owner, third.address+"/jobs/"+id+"/next", "#state"), "nothing can be saved")
	assert.Equal(t, http.StatusServiceUnavailable, healthOf(t, owner, third.address))
	status = http.StatusOK
	for n := batches + 1; status == http.StatusOK && n < batches+40; n++ {
		_, status = note(n)
	}
	assert.Equal(t, http.StatusInsufficientStorage, status, "this status tells the phone to keep it")
	require.NoError(t, os.Remove(ballast))
	result, status = note(batches + 100)
	assert.Equal(t, http.StatusOK, status, "it must go on without a restart")
	assert.Equal(t, wire.OK, result)
	assert.NotContains(t, pageText(t, owner, third.address+"/jobs/"+id+"/next", "#state"), "nothing can be saved")
}

// pageText returns the text of a part of a page.
func pageText(t *testing.T, c *http.Client, address, selector string) string {
	t.Helper()
	answer, err := c.Get(address)
	require.NoError(t, err)
	return document(t, answer).Find(selector).Text()
}

// fill writes zeros until the disk is full.
func fill(t *testing.T, path string) {
	t.Helper()
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	for size := 64 << 10; size >= 1; size /= 2 {
		for {
			if _, err := f.Write(make([]byte, size)); err != nil {
				require.ErrorIs(t, err, syscall.ENOSPC)
				break
			}
		}
	}
}

func document507(t *testing.T, answer *http.Response) string {
	t.Helper()
	defer answer.Body.Close()
	var b bytes.Buffer
	_, err := b.ReadFrom(answer.Body)
	require.NoError(t, err)
	assert.Equal(t, http.StatusInsufficientStorage, answer.StatusCode)
	return b.String()
}

// refusesToStart checks that a server reports why it cannot start on a full disk.
func refusesToStart(t *testing.T, file, dir, ballast string) {
	t.Helper()
	fill(t, ballast)
	code, out, complaint := ends(t, exec.Command(file, "serve", "--data", dir, "--addr", "127.0.0.1:0"))
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, dir)
	assert.Contains(t, complaint, "no space left")
	assert.NotContains(t, out, "owner#")
	require.NoError(t, os.Remove(ballast))
}

// hundredNotes sends the n-th batch of notes and returns the first result and the status.
func hundredNotes(t *testing.T, owner *http.Client, address, id string, n uint64) (wire.Result, int) {
	t.Helper()
	long, now := strings.Repeat("x", 900), time.Now().UnixMilli()
	var ops []job.Op
	for i := range uint64(100) {
		ops = append(
			ops,
			job.Op{ID: newID(), Device: "phone", Number: n*100 + i + 1, Version: 1, Kind: job.Set,
				Entity: "card/load", Field: "note", Value: []byte(`"` + long + `"`), Wall: now},
		)
	}
	answer, status, err := exchange(owner, address, id, wire.Request{Device: "phone", Now: now, Ops: ops, Max: 1})
	require.NoError(t, err)
	if status != http.StatusOK {
		return "", status
	}
	require.Len(t, answer.Acks, len(ops))
	for _, a := range answer.Acks {
		require.Equal(t, wire.OK, a.Result, a.Why)
	}
	return answer.Acks[0].Result, status
}

// healthOf returns the status of /healthz.
func healthOf(t *testing.T, visitor *http.Client, address string) int {
	t.Helper()
	answer, err := visitor.Get(address + "/healthz")
	require.NoError(t, err)
	require.NoError(t, answer.Body.Close())
	return answer.StatusCode
}
