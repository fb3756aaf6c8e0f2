package main

import (
	"context"
	"crypto/rand"
	"crypto/tls"
	"encoding/base32"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"time"
	_ "time/tzdata" // zones of jobs, on any machine

	"garlandry/app/store"
	"garlandry/pwa/serve"
	"garlandry/pwa/shell"
	"garlandry/static"
)

type serveCommand struct {
	Addr         string   `default:"127.0.0.1:8080" help:"Address to listen on. Port 0 takes a free one."`
	Data         string   `help:"Data directory. Default: in your configuration directory." placeholder:"DIR"`
	Demo         bool     `help:"Add the demo job if there is no job yet, and the gallery of views at /dev/gallery."`
	TLSCert      string   `help:"Certificate file (PEM). Read again when it changes." placeholder:"FILE" name:"tls-cert"`
	TLSKey       string   `help:"Key file (PEM)." placeholder:"FILE" name:"tls-key"`
	BaseURL      string   `help:"The address people open, behind a proxy." placeholder:"URL" name:"base-url"`
	Proxy        []string `help:"Address or network of a proxy whose X-Forwarded-For to trust." placeholder:"ADDRESS"`
	Gallery      bool     `help:"Show every view with sample data under /dev/gallery."`
	RetireWorker bool     `help:"Serve a service worker that removes itself." hidden:""`
	Verbose      bool     `help:"Log every answer." short:"v"`
}

// Run serves until it is interrupted.
func (c *serveCommand) Run(s stdio) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return c.serve(ctx, s, nil)
}

// serve serves until the context ends. It calls ready, if set, with the address.
func (c *serveCommand) serve(ctx context.Context, s stdio, ready func(address string)) (err error) {
	if (c.TLSCert == "") != (c.TLSKey == "") {
		return usageError{errors.New("--tls-cert and --tls-key go together")}
	}
	dir, err := c.directory()
	if err != nil {
		return err
	}
	level := slog.LevelWarn
	if c.Verbose {
		level = slog.LevelInfo
	}
	log := slog.New(slog.NewTextHandler(s.err, &slog.HandlerOptions{Level: level}))
	listener, err := net.Listen("tcp", c.Addr) // before the data: a bad address must leave no database behind
	if err != nil {
		return fmt.Errorf("listen on %s: %w; is another server running there? --addr takes another address", c.Addr, err)
	}
	data, err := store.Open(dir, store.Options{})
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	defer func() { _ = listener.Close() }() // closes it if something below fails
	defer func() { err = errors.Join(err, data.Close()) }()
	defer serveRequests(ctx, data, log)()
	built, err := shell.Load(static.Files)
	if errors.Is(err, shell.ErrNotBuilt) {
		say(s.out, "Note: %v\n", err)
	} else if err != nil {
		return err
	}
	addresses := c.addresses(listener.Addr(), ownAddresses)
	pair := &keyPair{cert: c.TLSCert, key: c.TLSKey}
	server, err := serve.New(
		serve.Config{Store: data, Shell: built, Log: log, Now: time.Now, NewID: newID, Version: version(), BaseURL: c.BaseURL,
			TLS: c.TLSCert != "", Gallery: c.Gallery || c.Demo, RetireWorker: c.RetireWorker, Proxies: c.Proxy,
			Addresses: addresses, OwnName: pair.isFor},
	)
	if err != nil {
		return usageError{err}
	}
	if c.Demo {
		if err := putDemo(ctx, data); err != nil {
			return err
		}
	}
	link, err := c.ownerLink(s, data)
	if err != nil {
		return err
	}
	if err := saveAddress(dir, addresses[len(addresses)-1]); err != nil {
		log.Warn("the address is not saved for garlandry invite", "err", err)
	}
	printDataNotes(s, data)
	welcome(s.out, addresses, link, dir)
	if ready != nil {
		ready(addresses[0])
	}
	return c.listen(ctx, server, listener, pair)
}

func (c *serveCommand) directory() (string, error) {
	switch {
	case c.Data != "":
		return c.Data, nil
	case c.Demo:
		return os.MkdirTemp("", "garlandry-demo-")
	}
	config, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("find a place for the data: %w; name one with --data", err)
	}
	return filepath.Join(config, "garlandry"), nil
}

// listen serves until the context ends, then waits for requests in progress.
func (c *serveCommand) listen(ctx context.Context, server *serve.Server, l net.Listener, pair *keyPair) error {
	h := &http.Server{Handler: server.Handler(), ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout: 60 * time.Second, WriteTimeout: 60 * time.Second, IdleTimeout: 2 * time.Minute,
		MaxHeaderBytes: 16 << 10}
	done := make(chan error, 1)
	go func() {
		if c.TLSCert != "" {
			h.TLSConfig = &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: pair.get}
			done <- h.ServeTLS(l, "", "")
			return
		}
		done <- h.Serve(l)
	}()
	select {
	case err := <-done:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	server.Stop()
	patience, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	return h.Shutdown(patience)
}

// keyPair reads the certificate again when its file changes, so a renewal needs no restart.
type keyPair struct {
	cert, key string
	mu        sync.Mutex
	at        time.Time
	loaded    *tls.Certificate
}

// isFor reports whether the certificate is for a host name; false without a certificate.
func (p *keyPair) isFor(host string) bool {
	if p.cert == "" {
		return false
	}
	pair, err := p.get(nil)
	return err == nil && pair.Leaf != nil && pair.Leaf.VerifyHostname(host) == nil
}

func (p *keyPair) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	info, err := os.Stat(p.cert)
	if err == nil && (p.loaded == nil || info.ModTime().After(p.at)) {
		fresh, loadErr := tls.LoadX509KeyPair(p.cert, p.key)
		if loadErr == nil {
			p.loaded, p.at = &fresh, info.ModTime()
		}
		err = loadErr
	}
	if p.loaded == nil {
		return nil, fmt.Errorf("read the certificate: %w", err)
	}
	return p.loaded, nil
}

// newID returns 128 random bits as 26 letters and digits.
func newID() string {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails, by its documentation
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(b[:]))
}
