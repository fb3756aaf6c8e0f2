package shell

import (
	"encoding/json"
	"fmt"
	"io/fs"

	"garlandry/pwa/address"
)

// Precache lists what the service worker stores at install: the shell page, the pages of a signed-out device and the
// assets. None of these pages holds data.
func (s *Shell) Precache() []string {
	urls := []string{address.Shell.Path(), address.Out.Path(), address.OutLater.Path()}
	for _, a := range s.Assets {
		if FirstVisit(a.URL) {
			urls = append(urls, a.URL)
		}
	}
	return urls
}

// ServiceWorker returns the script served at /sw.js: the build and its precache list, then static/js/sw.js. Its bytes
// change with every build, so browsers notice a new one. Without a build it returns [Retire].
func (s *Shell) ServiceWorker() ([]byte, error) {
	if s.plain {
		return Retire(), nil
	}
	body, err := fs.ReadFile(s.files, "js/sw.js")
	if err != nil {
		return nil, fmt.Errorf("read the service worker: %w", err)
	}
	files, err := json.Marshal(s.Precache())
	if err != nil {
		return nil, fmt.Errorf("write the precache list: %w", err)
	}
	head := fmt.Sprintf("const build = %q;\nconst files = %s;\n", s.Build, files)
	return append([]byte(head), body...), nil
}

// Retire returns a service worker that takes over at once, deletes its caches and unregisters itself. It withdraws a
// broken worker and leaves the jobs stored on the phone alone.
func Retire() []byte {
	return []byte(`self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) await caches.delete(name);
  await self.registration.unregister();
})()));
`)
}
