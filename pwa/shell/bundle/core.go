package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// coreFlags are the flags that build the core; `go help build`, `go tool compile -help` and `go tool link -help`
// explain each. Inlining makes the core about a fifth larger, so it is off but for packages that are small and compute
// for long. With it, Go's runtime would collect garbage faster, and the core be 30 kB larger; scheduling would be about
// a tenth faster, and the core 7 kB larger. The last pattern that matches a package decides.
var coreFlags = []string{"-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=",
	"-gcflags=all=-l", "-gcflags=garlandry/calc/softsphere=", "-gcflags=garlandry/calc/rng=",
	"-gcflags=garlandry/calc/exact="}

// buildCore compiles the on-device program. Paths, build ids and version control marks are left out, so that the bytes
// depend on nothing but source and compiler.
func buildCore() ([]byte, error) {
	work, err := os.MkdirTemp("", "bundle")
	if err != nil {
		return nil, fmt.Errorf("build the on-device core: %w", err)
	}
	defer os.RemoveAll(work)
	out := filepath.Join(work, "core.wasm")
	args := append([]string{"build", "-o", out}, coreFlags...)
	cmd := exec.Command("go", append(args, "garlandry/cmd/ondevice")...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=")
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("build the on-device core: %w", err)
	}
	core, err := os.ReadFile(out)
	if err != nil {
		return nil, fmt.Errorf("read the on-device core: %w", err)
	}
	return core, nil
}

// loader reads the wasm loader that belongs to the compiler which built the core.
func loader() ([]byte, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("find the Go installation: %w", err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, fmt.Errorf("read the compiler's wasm loader: %w", err)
	}
	return data, nil
}
