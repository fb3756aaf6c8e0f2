package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"sync"
	"time"

	"garlandry/app/store"
)

// request asks a running server for one thing: a backup, its devices, to end a device, or to set an operation aside.
type (
	request struct {
		File    string
		Devices bool   // list them
		End     string // the device to end
		Aside   *asideRequest
	}
	response struct {
		Error   string
		Devices []deviceLine
		Aside   []store.Suspect
	}
)

// errNoServer means that no server answers in a data directory.
var errNoServer = errors.New("no server answers there")

// requestSocket returns the path of the socket of a running server. Only the owner may enter its folder.
func requestSocket(dir string) string { return filepath.Join(dir, "running", "copy") }

// serveRequests answers the other commands while the server has the data open. Without sockets the server runs without
// it. The returned function waits for requests in progress.
func serveRequests(ctx context.Context, data *store.Store, log *slog.Logger) (stop func()) {
	path := requestSocket(data.Dir())
	l, err := listenPrivately(path)
	if err != nil {
		log.Warn("backup works only while the server is stopped", "error", err)
		return func() {}
	}
	var work sync.WaitGroup
	work.Go(func() {
		for {
			conn, err := l.Accept()
			if err != nil {
				return
			}
			work.Go(func() { serveRequest(ctx, conn, data, log) })
		}
	})
	return func() {
		_ = l.Close() // removes the socket too
		work.Wait()
		_ = os.Remove(filepath.Dir(path)) // an empty folder would do no harm
	}
}

func listenPrivately(path string) (net.Listener, error) {
	folder := filepath.Dir(path)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, err
	}
	if err := os.Chmod(folder, 0o700); err != nil {
		return nil, err
	}
	// Only one server can have the database open, so an existing socket was left by one that was killed.
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	return net.Listen("unix", path)
}

func serveRequest(ctx context.Context, conn net.Conn, data *store.Store, log *slog.Logger) {
	defer conn.Close()
	_ = conn.SetReadDeadline(time.Now().Add(2 * time.Second)) // without a deadline the request ends with its peer
	var req request
	var answer response
	if err := json.NewDecoder(io.LimitReader(conn, 64<<10)).Decode(&req); err != nil ||
		req.File != "" && !filepath.IsAbs(req.File) {
		answer.Error = "the request cannot be read"
	} else if answer, err = handle(ctx, req, data); err != nil {
		answer.Error = err.Error()
	}
	if err := json.NewEncoder(conn).Encode(answer); err != nil {
		log.Warn("a command stopped before it got its answer", "file", req.File, "error", err)
	}
}

// handle does what a request asks.
func handle(ctx context.Context, req request, data *store.Store) (answer response, err error) {
	switch {
	case req.File != "":
		err = data.Backup(ctx, req.File)
	case req.End != "":
		err = endDevice(ctx, req.End, data)
	case req.Aside != nil:
		answer.Aside, err = req.Aside.handle(ctx, data)
	default:
		answer.Devices, err = deviceLines(data)
	}
	return answer, err
}

// requestBackup asks the server on a data directory to write a checked copy to the file.
func requestBackup(dir, file string) error {
	file, err := filepath.Abs(file)
	if err != nil {
		return fmt.Errorf("backup %s: %w", file, err)
	}
	_, err = send(dir, request{File: file})
	if errors.Is(err, errStoppedEarly) {
		return fmt.Errorf("%w; if %s exists it is complete, else try again", err, file)
	}
	return err
}

// errStoppedEarly means that the server took the request and did not answer.
var errStoppedEarly = errors.New("the server stopped before it answered")

// send sends a request to the server on a data directory. The error wraps [errNoServer] if none runs.
func send(dir string, req request) (response, error) {
	var answer response
	conn, err := net.Dial("unix", requestSocket(dir))
	if err != nil {
		return answer, fmt.Errorf("%w: %w", errNoServer, err)
	}
	defer conn.Close()
	if err := errors.Join(json.NewEncoder(conn).Encode(req), json.NewDecoder(conn).Decode(&answer)); err != nil {
		return answer, fmt.Errorf("%w: %w", errStoppedEarly, err)
	}
	if answer.Error != "" {
		return answer, errors.New(answer.Error)
	}
	return answer, nil
}
