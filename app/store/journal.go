package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	stdsync "sync"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync/server"
)

// journal is the append-only text beside the database. Each line is JSON: an accepted operation, an operation held for
// the owner, or the owner's decision about one. It is flushed before the database commits. It may hold a line whose
// transaction failed; the same ids then come again.
type journal struct {
	dir   string
	mu    stdsync.Mutex
	month string
	file  *os.File
}

// journalLine is one line of the journal. It has exactly one of Rec, Held and Settled. An older build, which knows only
// records, skips the others.
type journalLine struct {
	Log     string       `json:"log"`
	Rec     *job.Rec     `json:"rec,omitempty"`
	Held    *server.Held `json:"held,omitempty"`
	Settled *settled     `json:"settled,omitempty"`
}

// settled is the owner's decision about a held operation.
type settled struct {
	ID       string `json:"i"`
	Decision string `json:"d"`  // decisionAccepted or decisionIgnored
	At       int64  `json:"at"` // Unix milliseconds
	By       string `json:"by"` // the owner's session
}

const (
	decisionAccepted = "accepted"
	decisionIgnored  = "ignored"
)

// write appends the lines and flushes them.
func (j *journal) write(now int64, all []journalLine) error {
	if len(all) == 0 {
		return nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if err := j.turn(time.UnixMilli(now).UTC().Format("200601")); err != nil {
		return err
	}
	var lines bytes.Buffer
	encoder := json.NewEncoder(&lines)
	for _, l := range all {
		if err := encoder.Encode(l); err != nil {
			return fmt.Errorf("write journal: %w", err)
		}
	}
	_, err := j.file.Write(lines.Bytes())
	if err = errors.Join(err, j.file.Sync()); err != nil {
		name := j.file.Name()
		err = errors.Join(err, j.file.Close())
		j.file, j.month = nil, "" // turn opens it again and repairs its end
		return fmt.Errorf("%w: write journal %s: %w; nothing was changed", ErrDirectory, name, err)
	}
	return nil
}

// turn opens the month's file. If a power failure cut off the last line, it adds a line end.
func (j *journal) turn(month string) error {
	if j.file != nil && j.month == month {
		return nil
	}
	if err := j.closeFile(); err != nil {
		return err
	}
	path := filepath.Join(j.dir, "ops-"+month+".ndjson")
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return fmt.Errorf("%w: open journal: %w", ErrDirectory, err)
	}
	if err := endLine(file); err != nil {
		return errors.Join(fmt.Errorf("%w: repair journal %s: %w", ErrDirectory, path, err), file.Close())
	}
	j.file, j.month = file, month
	return flushDir(j.dir)
}

func endLine(file *os.File) error {
	size, err := file.Seek(0, io.SeekEnd)
	if err != nil || size == 0 {
		return err
	}
	last := make([]byte, 1)
	if _, err := file.ReadAt(last, size-1); err != nil || last[0] == '\n' {
		return err
	}
	_, err = file.Write([]byte{'\n'})
	return err
}

func (j *journal) closeFile() error {
	if j.file == nil {
		return nil
	}
	err := j.file.Close()
	j.file, j.month = nil, ""
	if err != nil {
		return fmt.Errorf("close journal: %w", err)
	}
	return nil
}

func (j *journal) close() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.closeFile()
}
