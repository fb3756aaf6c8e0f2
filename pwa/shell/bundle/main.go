// Bundle builds what a browser loads: the on-device core for js/wasm with the compiler's own loader, content-hashed
// names, compressed copies, and the index that the server and the service worker read. Run by go generate; the same
// source and compiler give the same bytes.
package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"garlandry/pwa/shell"

	"github.com/andybalholm/brotli"
)

// quick compresses weakly: for a developer who tries a change in a browser. What is measured or shipped is built
// without.
var quick = flag.Bool("quick", false, "compress weakly, which takes seconds instead of a minute")

func main() {
	flag.Parse()
	if err := run("../../static"); err != nil {
		fmt.Fprintln(os.Stderr, "bundle:", err)
		os.Exit(1)
	}
}

// run bundles the static folder into its gen folder.
func run(static string) error {
	gen := filepath.Join(static, "gen")
	if err := empty(gen); err != nil {
		return err
	}
	core, err := buildCore()
	if err != nil {
		return err
	}
	loader, err := loader()
	if err != nil {
		return err
	}
	files, err := sources(static)
	if err != nil {
		return err
	}
	build := hash(files, core, loader)
	index := shell.Index{Build: build, Core: "/a/core." + digest(core)[:12] + ".wasm",
		Loader: "/a/loader." + digest(loader)[:12] + ".js"}
	add := func(url string, content []byte) error {
		asset, err := write(gen, url, content)
		index.Assets = append(index.Assets, asset)
		return err
	}
	if err := add(index.Core, core); err != nil {
		return err
	}
	if err := add(index.Loader, loader); err != nil {
		return err
	}
	for _, f := range files {
		if err := add("/a/"+build+"/"+f.path, f.content); err != nil {
			return err
		}
	}
	sort.Slice(index.Assets, func(i, j int) bool { return index.Assets[i].URL < index.Assets[j].URL })
	data, err := json.MarshalIndent(index, "", " ")
	if err != nil {
		return fmt.Errorf("write index: %w", err)
	}
	if err := os.WriteFile(filepath.Join(gen, shell.IndexFile), append(data, '\n'), 0o644); err != nil {
		return fmt.Errorf("write index: %w", err)
	}
	report(index)
	return nil
}

func empty(gen string) error {
	if err := os.MkdirAll(gen, 0o755); err != nil {
		return fmt.Errorf("make %s: %w", gen, err)
	}
	entries, err := os.ReadDir(gen)
	if err != nil {
		return fmt.Errorf("read %s: %w", gen, err)
	}
	for _, e := range entries {
		if e.Name() == ".gitkeep" {
			continue
		}
		if err := os.RemoveAll(filepath.Join(gen, e.Name())); err != nil {
			return fmt.Errorf("empty %s: %w", gen, err)
		}
	}
	return nil
}

type source struct {
	path    string
	content []byte
}

// sources reads what is served as it stands: css, js and icons, by path.
func sources(static string) ([]source, error) {
	var files []source
	for _, dir := range []string{"css", "js", "icons"} {
		err := filepath.WalkDir(filepath.Join(static, dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !shell.Served(path) {
				return err
			}
			content, err := os.ReadFile(path)
			rel, _ := filepath.Rel(static, path)
			files = append(files, source{filepath.ToSlash(rel), content})
			return err
		})
		if err != nil {
			return nil, fmt.Errorf("read %s: %w", dir, err)
		}
	}
	sort.Slice(files, func(i, j int) bool { return files[i].path < files[j].path })
	return files, nil
}

func hash(files []source, more ...[]byte) string {
	h := sha256.New()
	for _, f := range files {
		fmt.Fprintf(h, "%s\n%d\n", f.path, len(f.content))
		h.Write(f.content)
	}
	for _, m := range more {
		h.Write(m)
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}

func digest(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// write stores one file with its compressed copies, where these are smaller.
func write(gen, url string, content []byte) (shell.Asset, error) {
	name := strings.ReplaceAll(strings.TrimPrefix(url, "/a/"), "/", "_")
	asset := shell.Asset{URL: url, File: name, Bytes: len(content)}
	if err := os.WriteFile(filepath.Join(gen, name), content, 0o644); err != nil {
		return asset, fmt.Errorf("write %s: %w", name, err)
	}
	if !shell.Compressible(url) {
		return asset, nil
	}
	var br, gz bytes.Buffer
	quality := brotli.BestCompression
	if *quick {
		quality = brotli.BestSpeed
	}
	b := brotli.NewWriterOptions(
		&br,
		brotli.WriterOptions{Quality: quality, LGWin: 24},
	) // the core is larger than the usual window
	g, err := gzip.NewWriterLevel(&gz, gzip.BestCompression)
	if err != nil {
		return asset, fmt.Errorf("compress %s: %w", name, err)
	}
	for _, w := range []interface {
		Write([]byte) (int, error)
		Close() error
	}{b, g} {
		if _, err := w.Write(content); err != nil {
			return asset, fmt.Errorf("compress %s: %w", name, err)
		}
		if err := w.Close(); err != nil {
			return asset, fmt.Errorf("compress %s: %w", name, err)
		}
	}
	asset.Brotli, asset.Gzip = br.Len(), gz.Len()
	if err := os.WriteFile(filepath.Join(gen, name+".br"), br.Bytes(), 0o644); err != nil {
		return asset, fmt.Errorf("write %s: %w", name, err)
	}
	if err := os.WriteFile(filepath.Join(gen, name+".gz"), gz.Bytes(), 0o644); err != nil {
		return asset, fmt.Errorf("write %s: %w", name, err)
	}
	return asset, nil
}

func report(index shell.Index) {
	core, rest := 0, 0
	for _, a := range index.Assets {
		if a.URL == index.Core {
			core = a.Sent()
		} else if shell.FirstVisit(a.URL) {
			rest += a.Sent()
		}
	}
	fmt.Printf("bundle %s: core %d bytes brotli, everything else of a first visit %d bytes\n", index.Build, core, rest)
}
