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

// copyWish asks a running server for a copy of its data; copyAnswer says what came of it.
type (
	copyWish   struct{ File string }
	copyAnswer struct{ Error string }
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
	if err := json.NewDecoder(io.LimitReader(conn, 64<<10)).Decode(&wish); err != nil || !filepath.IsAbs(wish.File) {
		answer.Error = "the wish for a copy cannot be read"
	} else if err := data.Backup(ctx, wish.File); err != nil {
		answer.Error = err.Error()
	}
	if err := json.NewEncoder(conn).Encode(answer); err != nil {
		log.Warn("a copy was asked for, and who asked has gone", "file", wish.File, "error", err)
	}
}

// askForCopy has the server that runs on a data directory write a checked copy to the file.
func askForCopy(dir, file string) error {
	file, err := filepath.Abs(file)
	if err != nil {
		return fmt.Errorf("backup %s: %w", file, err)
	}
	conn, err := net.Dial("unix", copySocket(dir))
	if err != nil {
		return fmt.Errorf("%w: %w", errNobodyCopies, err)
	}
	defer conn.Close()
	var answer copyAnswer
	if err := errors.Join(json.NewEncoder(conn).Encode(copyWish{file}), json.NewDecoder(conn).Decode(&answer)); err != nil {
		return fmt.Errorf("the server stopped before it had answered: %w; if %s is there it is whole, else ask again", err, file)
	}
	if answer.Error != "" {
		return errors.New(answer.Error)
	}
	return nil
}
