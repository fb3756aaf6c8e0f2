package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"garlandry/pwa/shell/slim"
)

// lean keeps code out of line, since pages inlined into one another weigh several times as much; loops lets the inner
// loops of the physics be inlined all the same, brisk those of the crew's clock. Bare leaves the checks of indexes out of
// the compiler's own runtime, where one that failed would end the program anyway; they stay in all other code.
const (
	lean  = "-gcflags=all=-l"
	bare  = "-gcflags=runtime=-l -B"
	loops = "-gcflags=garlandry/calc/nest="
	brisk = "-gcflags=garlandry/calc/crew/...="
)

// buildCore compiles the on-device program and slims it. Paths, build ids and version control marks are left out, so that
// the bytes depend on nothing but source and compiler.
func buildCore() ([]byte, error) {
	work, err := os.MkdirTemp("", "bundle")
	if err != nil {
		return nil, fmt.Errorf("build the on-device core: %w", err)
	}
	defer os.RemoveAll(work)
	replaced, err := overlay(work)
	if err != nil {
		return nil, err
	}
	out := filepath.Join(work, "core.wasm")
	cmd := exec.Command("go", "build", "-overlay", replaced, "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", lean, bare, loops, brisk, "-o", out, "garlandry/cmd/ondevice")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOEXPERIMENT="+collector())
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("build the on-device core: %w", err)
	}
	whole, err := os.ReadFile(out)
	if err != nil {
		return nil, fmt.Errorf("read the on-device core: %w", err)
	}
	core, _, err := slim.Core(whole, known())
	if errors.Is(err, slim.ErrUnknownLayout) {
		fmt.Fprintln(os.Stderr, "bundle: the core is served whole, larger than it need be:", err)
		return whole, nil
	}
	return core, err
}

// collector names the older garbage collector where the compiler still has it: the newer one serves many cores and big
// heaps, which a worker on a phone has not, and weighs 7 kB more.
func collector() string {
	if known() {
		return "nogreenteagc"
	}
	return ""
}

// known reports whether this is the compiler whose layout of types the stand-ins for json and fmt were written for.
func known() bool {
	return runtime.Version() == "go1.26" || strings.HasPrefix(runtime.Version(), "go1.26.")
}

// standIns are packages of the standard library, each with the folder of ours that takes its place on the phone. Ours do
// what the on-device core needs of them and weigh a tenth; each has a test that holds it to the real one.
// Those for json and fmt read types as this compiler lays them out; under any other the real ones are taken, and the core
// is larger than it need be.
var standIns = []struct {
	standard, ours string
	known          bool // for the known compiler only
}{
	{"html/template", "template", false},
	{"crypto/sha256", "sha256", false},
	{"crypto/hmac", "hmac", false},
	{"encoding/json", "json", true},
	{"fmt", "fmt", true},
	{"internal/godebug", "godebug", true},
}

// overlay writes the compiler's list of replaced files into a folder and returns its path.
func overlay(work string) (string, error) {
	root, err := goRoot()
	if err != nil {
		return "", err
	}
	replace := map[string]string{}
	for _, s := range standIns {
		if s.known && !known() {
			continue
		}
		dir := filepath.Join(root, "src", filepath.FromSlash(s.standard))
		theirs, err := sourceFiles(dir)
		if err != nil {
			return "", err
		}
		ours, err := sourceFiles(filepath.Join("standin", s.ours))
		if err != nil {
			return "", err
		}
		for _, f := range theirs {
			replace[f] = ""
		}
		for _, f := range ours {
			replace[filepath.Join(dir, filepath.Base(f))] = f
		}
	}
	if known() {
		if err := quieten(filepath.Join(root, "src", "runtime"), work, replace); err != nil {
			return "", err
		}
	}
	data, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", fmt.Errorf("write the list of replaced files: %w", err)
	}
	path := filepath.Join(work, "overlay.json")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return "", fmt.Errorf("write the list of replaced files: %w", err)
	}
	return path, nil
}

// sourceFiles lists the Go files of a folder, tests left out, by absolute path. None is an error.
func sourceFiles(dir string) ([]string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("find %s: %w", dir, err)
	}
	all, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, fmt.Errorf("list %s: %w", dir, err)
	}
	var files []string
	for _, f := range all {
		if !strings.HasSuffix(f, "_test.go") {
			files = append(files, f)
		}
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("list %s: no Go file there", dir)
	}
	return files, nil
}

func goRoot() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("find the Go installation: %w", err)
	}
	return strings.TrimSpace(string(root)), nil
}

// loader reads the wasm loader that belongs to the compiler which built the core.
func loader() ([]byte, error) {
	root, err := goRoot()
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, fmt.Errorf("read the compiler's wasm loader: %w", err)
	}
	return data, nil
}
