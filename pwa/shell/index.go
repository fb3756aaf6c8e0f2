// Package shell makes the pages an installable app: the index of built files, the manifest and the service worker with
// its precache list. All of it is derived from the build. It knows no HTTP: [Shell] returns bytes and their type.
package shell

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// IndexFile is the name of the index among the built files.
const IndexFile = "index.json"

// ErrNotBuilt says that the program was built without the on-device core. Pages still work, from the server.
var ErrNotBuilt = errors.New(
	"built without the on-device core; run go generate ./... and build again to make it work offline",
)

// Index lists what a browser loads.
type Index struct {
	Build  string  `json:"build"`  // hash over all content
	Core   string  `json:"core"`   // address of the wasm core
	Loader string  `json:"loader"` // address of the compiler's loader
	Assets []Asset `json:"assets"` // by address
}

// Asset is one file as it is served.
type Asset struct {
	URL    string `json:"url"`
	File   string `json:"file"` // below static/gen
	Bytes  int    `json:"bytes"`
	Brotli int    `json:"brotli,omitempty"` // bytes; 0: no compressed copy
	Gzip   int    `json:"gzip,omitempty"`
}

// Sent returns the number of bytes sent to a current browser.
func (a Asset) Sent() int {
	if a.Brotli > 0 {
		return a.Brotli
	}
	return a.Bytes
}

// Served reports whether browsers can load a file below static by its own address.
func Served(name string) bool {
	switch path.Ext(name) {
	case ".css", ".js", ".svg", ".png", ".webp", ".ico":
		return path.Base(name) != "sw.js"
	}
	return false
}

// Compressible reports whether the file gains from compression.
func Compressible(name string) bool {
	switch path.Ext(name) {
	case ".css", ".js", ".svg", ".wasm":
		return true
	}
	return false
}

// FirstVisit reports whether every first visit loads the file. Install screenshots are not loaded.
func FirstVisit(url string) bool { return !strings.Contains(url, "screenshot") }

// ContentType returns the media type of a served file.
func ContentType(name string) string {
	switch path.Ext(name) {
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".svg":
		return "image/svg+xml"
	case ".png":
		return "image/png"
	case ".webp":
		return "image/webp"
	case ".ico":
		return "image/x-icon"
	case ".wasm":
		return "application/wasm"
	}
	return "application/octet-stream"
}

// Shell serves one build.
type Shell struct {
	Index
	files fs.FS // static
	byURL map[string]Asset
	plain bool // nothing was built: serve css, js and icons as they are
}

// Load reads the build from the static files. Without a build it returns a shell that serves the plain files, and
// [ErrNotBuilt].
func Load(static fs.FS) (*Shell, error) {
	s := &Shell{files: static, byURL: map[string]Asset{}}
	data, err := fs.ReadFile(static, "gen/"+IndexFile)
	if errors.Is(err, fs.ErrNotExist) {
		s.plain = true
		s.Build = "unbuilt"
		return s, ErrNotBuilt
	}
	if err != nil {
		return nil, fmt.Errorf("read the build's index: %w", err)
	}
	if err := json.Unmarshal(data, &s.Index); err != nil {
		return nil, fmt.Errorf("read the build's index: %w", err)
	}
	for _, a := range s.Assets {
		s.byURL[a.URL] = a
	}
	return s, nil
}

// Built reports whether there is an on-device core.
func (s *Shell) Built() bool { return !s.plain }

// URL returns the address of a file below static, such as "css/app.css".
func (s *Shell) URL(name string) string { return "/a/" + s.Build + "/" + name }

// File returns the bytes for an address in the best accepted encoding: "br", "gzip" or "" for none. The error wraps
// [fs.ErrNotExist] if there is no such file.
func (s *Shell) File(url string, acceptBrotli, acceptGzip bool) (
	content []byte, encoding, contentType string, err error) {
	if s.plain {
		name := strings.TrimPrefix(url, "/a/"+s.Build+"/")
		if name == url || !Served(name) || strings.HasPrefix(name, "gen/") {
			return nil, "", "", fmt.Errorf("%s: %w", url, fs.ErrNotExist)
		}
		content, err = fs.ReadFile(s.files, name)
		return content, "", ContentType(name), err
	}
	a, known := s.byURL[url]
	if !known {
		return nil, "", "", fmt.Errorf("%s: %w", url, fs.ErrNotExist)
	}
	name := "gen/" + a.File
	switch {
	case acceptBrotli && a.Brotli > 0:
		name, encoding = name+".br", "br"
	case acceptGzip && a.Gzip > 0:
		name, encoding = name+".gz", "gzip"
	}
	content, err = fs.ReadFile(s.files, name)
	return content, encoding, ContentType(url), err
}
