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

// copyWish asks a running server for a copy of its data, or for its devices, or to end one of them; copyAnswer says
// what came of it.
type (
	copyWish struct {
		File    string
		Devices bool   // list them
		End     string // the device to end
		Aside   *asideWish
	}
	copyAnswer struct {
		Error   string
		Devices []deviceLine
		Aside   []store.Suspect
	}
)

// errNobodyCopies says that no server answers in a data directory.
var errNobodyCopies = errors.New("no server answers there")

// copySocket is where a running server hears of wishes for a copy: in a folder that only its owner may enter.
func copySocket(dir string) string { return filepath.Join(dir, "running", "copy") }

// answerCopies makes copies for the backup command while the server has the data open. A system without such sockets
// costs only that. The function given back lets copies under way finish.
func answerCopies(ctx context.Context, data *store.Store, log *slog.Logger) (stop func()) {
	path := copySocket(data.Dir())
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
			work.Go(func() { answerCopy(ctx, conn, data, log) })
		}
	})
	return func() {
		_ = l.Close() // takes the socket away as well
		work.Wait()
		_ = os.Remove(filepath.Dir(path)) // an empty folder left behind harms nobody
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
	// Whoever has the database open is the only server, so a socket that is there was left by one that was killed.
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	return net.Listen("unix", path)
}

func answerCopy(ctx context.Context, conn net.Conn, data *store.Store, log *slog.Logger) {
	defer conn.Close()
	_ = conn.SetReadDeadline(time.Now().Add(2 * time.Second)) // a socket that cannot be given one still ends with its peer
	var wish copyWish
	var answer copyAnswer
	if err := json.NewDecoder(io.LimitReader(conn, 64<<10)).Decode(&wish); err != nil ||
		wish.File != "" && !filepath.IsAbs(wish.File) {
		answer.Error = "what was asked cannot be read"
	} else if answer, err = fulfil(ctx, wish, data); err != nil {
		answer.Error = err.Error()
	}
	if err := json.NewEncoder(conn).Encode(answer); err != nil {
		log.Warn("a copy was asked for, and who asked has gone", "file", wish.File, "error", err)
	}
}

// fulfil does what was asked of the data.
func fulfil(ctx context.Context, wish copyWish, data *store.Store) (answer copyAnswer, err error) {
	switch {
	case wish.File != "":
		err = data.Backup(ctx, wish.File)
	case wish.End != "":
		err = endDevice(ctx, wish.End, data)
	case wish.Aside != nil:
		answer.Aside, err = wish.Aside.fulfil(ctx, data)
	default:
		answer.Devices, err = deviceLines(data)
	}
	return answer, err
}

// askForCopy has the server that runs on a data directory write a checked copy to the file.
func askForCopy(dir, file string) error {
	file, err := filepath.Abs(file)
	if err != nil {
		return fmt.Errorf("backup %s: %w", file, err)
	}
	_, err = ask(dir, copyWish{File: file})
	if errors.Is(err, errStoppedEarly) {
		return fmt.Errorf("%w; if %s is there it is whole, else ask again", err, file)
	}
	return err
}

// errStoppedEarly says that the server took what was asked and did not answer.
var errStoppedEarly = errors.New("the server stopped before it had answered")

// ask asks the server that runs on a data directory. The error wraps [errNobodyCopies] if none does.
func ask(dir string, wish copyWish) (copyAnswer, error) {
	var answer copyAnswer
	conn, err := net.Dial("unix", copySocket(dir))
	if err != nil {
		return answer, fmt.Errorf("%w: %w", errNobodyCopies, err)
	}
	defer conn.Close()
	if err := errors.Join(json.NewEncoder(conn).Encode(wish), json.NewDecoder(conn).Decode(&answer)); err != nil {
		return answer, fmt.Errorf("%w: %w", errStoppedEarly, err)
	}
	if answer.Error != "" {
		return answer, errors.New(answer.Error)
	}
	return answer, nil
}
