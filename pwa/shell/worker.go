package shell

import (
	"encoding/json"
	"fmt"
	"io/fs"

	"garlandry/pwa/address"
)

// Precache lists what the service worker stores when it is installed: the shell page first, then the pages of a device
// that has signed out. None of these pages holds data.
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
// change with every build, which is how a browser learns of one. Without a build it gives the worker that retires
// itself.
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

// Retire gives a service worker that takes over at once, empties its caches and steps aside, for the day when a worker
// has to be withdrawn. What the phone has stored of jobs is not touched.
func Retire() []byte {
	return []byte(`self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) await caches.delete(name);
  await self.registration.unregister();
})()));
`)
}
