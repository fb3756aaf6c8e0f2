package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rules lists what each part of the project may import: its own packages by prefix, and third-party packages.
var rules = []struct {
	part   string   // this package and those below it
	ours   []string // our packages, with those below them
	others []string // third-party packages, with those below them
}{
	{"garlandry/calc", []string{"garlandry/calc"}, nil},
	{"garlandry/app/job", []string{"garlandry/calc"}, nil},
	{"garlandry/app/plan", []string{"garlandry/calc", "garlandry/app/job"}, nil},
	{"garlandry/app/plan/phrase", []string{"garlandry/calc", "garlandry/app/job"}, nil},
	{"garlandry/app/plan/figures", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase"}, nil},
	{"garlandry/app/plan/count",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase", "garlandry/app/plan/figures"}, nil},
	{"garlandry/app/plan/rigging", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase",
		"garlandry/app/plan/figures", "garlandry/app/plan/count"}, nil},
	{"garlandry/app/plan/transport", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase",
		"garlandry/app/plan/figures", "garlandry/app/plan/count"}, nil},
	{"garlandry/app/plan/packing", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase",
		"garlandry/app/plan/figures", "garlandry/app/plan/count", "garlandry/app/plan/rigging"}, nil},
	{"garlandry/app/plan/task", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan/phrase",
		"garlandry/app/plan/figures", "garlandry/app/plan/count", "garlandry/app/plan/rigging",
		"garlandry/app/plan/transport", "garlandry/app/plan/packing"}, nil},
	{"garlandry/app/forecast", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan"}, nil},
	{"garlandry/app/sync", []string{"garlandry/app/job", "garlandry/calc"}, nil},
	{"garlandry/app/photo", []string{"garlandry/app/job", "garlandry/calc"}, nil},
	{"garlandry/app/store", []string{"garlandry/app/job", "garlandry/app/photo", "garlandry/app/sync", "garlandry/calc"},
		[]string{"go.etcd.io/bbolt", "golang.org/x/sys"}},
	{"garlandry/pwa/address", nil, nil},
	{"garlandry/pwa/form", []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan"}, nil},
	{"garlandry/pwa/view",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
			"garlandry/pwa/address", "garlandry/pwa/form"},
		[]string{"maragu.dev/gomponents"}},
	{
		"garlandry/pwa/gallery",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
			"garlandry/pwa/address", "garlandry/pwa/form",
			"garlandry/pwa/page", "garlandry/pwa/view"},
		[]string{"maragu.dev/gomponents"},
	},
	{"garlandry/pwa/page",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
			"garlandry/pwa/address", "garlandry/pwa/form",
			"garlandry/pwa/view"},
		[]string{"maragu.dev/gomponents"}},
	{"garlandry/pwa/shell", []string{"garlandry/pwa/address"}, []string{"github.com/andybalholm/brotli"}},
	{
		"garlandry/pwa/device",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
			"garlandry/app/sync", "garlandry/pwa/address",
			"garlandry/pwa/form", "garlandry/pwa/view", "garlandry/pwa/page"},
		[]string{"maragu.dev/gomponents"},
	},
	{"garlandry/cmd/ondevice",
		[]string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
			"garlandry/app/sync", "garlandry/pwa"},
		[]string{"maragu.dev/gomponents"}},
}

// notOnPhone lists packages that would make the phone's core too big or do not belong there. gomponents links regexp
// through html/template, so that is allowed here; our own packages must not import it, see heavy.
var notOnPhone = []string{"net/http", "github.com/labstack/echo/v4", "go.etcd.io/bbolt", "rsc.io/qr", "log/slog"}

// heavy lists packages that our own phone packages must not import.
var heavy = []string{"regexp", "html/template", "text/template", "net/http"}

// pure lists the packages that must not use a clock, randomness, files or the network.
var pure = []string{"garlandry/calc", "garlandry/app/job", "garlandry/app/plan", "garlandry/app/forecast",
	"garlandry/app/sync",
	"garlandry/pwa/address", "garlandry/pwa/form", "garlandry/pwa/view", "garlandry/pwa/page"}

var impure = []string{"os", "os/exec", "net", "net/http", "math/rand", "math/rand/v2", "crypto/rand", "io/ioutil",
	"syscall", "syscall/js", "log", "log/slog"}

func TestImportsPointOneWay(t *testing.T) {
	for _, rule := range rules {
		for _, target := range [][]string{nil, {"GOOS=js", "GOARCH=wasm"}} {
			if target != nil && (rule.part == "garlandry/app/store" || rule.part == "garlandry/pwa/shell") ||
				target == nil && rule.part == "garlandry/cmd/ondevice" {
				continue
			}
			packages := rule.part + "/..."
			if rule.part == "garlandry/pwa/view" {
				packages = rule.part // the gallery has its own rule
			}
			for _, dep := range list(t, target, "-deps", "-f", "{{if not .Standard}}{{.ImportPath}}{{end}}", packages) {
				allowed := under(dep, rule.part) || anyUnder(dep, rule.ours) || anyUnder(dep, rule.others)
				assert.True(t, allowed, "%s must not depend on %s (%v)", rule.part, dep, target)
			}
		}
	}
}

func TestPhoneLinksNoHeavyPackage(t *testing.T) {
	deps := list(t, []string{"GOOS=js", "GOARCH=wasm"}, "-deps", "garlandry/cmd/ondevice")
	require.Contains(t, deps, "garlandry/pwa/device", "the list must be that of the phone's core")
	for _, dep := range deps {
		assert.False(t, anyUnder(dep, notOnPhone), "the phone's core must not carry %s", dep)
	}
}

func TestPhoneLinksNoCryptography(t *testing.T) {
	for _, dep := range list(t, []string{"GOOS=js", "GOARCH=wasm"}, "-deps", "garlandry/cmd/ondevice") {
		assert.False(t, under(dep, "crypto"), "only the server seals and verifies: the phone's core must not link %s", dep)
		assert.False(t, under(dep, "garlandry/app/sync/server"), "the phone's core must not link %s", dep)
	}
}

func TestHalvesOfSyncStayApart(t *testing.T) {
	const wire = "garlandry/app/sync"
	for _, half := range []struct {
		part   string
		others []string // sync packages that it must not depend on
	}{
		{wire, []string{wire + "/phone", wire + "/server", wire + "/memory"}},
		{wire + "/phone", []string{wire + "/server", wire + "/memory"}},
		{wire + "/server", []string{wire + "/phone", wire + "/memory"}},
		{"garlandry/cmd/garlandry", []string{wire + "/memory", wire + "/simulation"}},
	} {
		deps := list(t, nil, "-deps", half.part)
		require.Contains(t, deps, wire)
		for _, other := range half.others {
			assert.NotContains(t, deps, other, "%s must not depend on %s", half.part, other)
		}
	}
}

func TestPurePackagesImportNothingImpure(t *testing.T) {
	for _, part := range pure {
		for _, line := range list(t, nil, "-f", "{{.ImportPath}}{{range .Imports}} {{.}}{{end}}", part+"/...") {
			words := strings.Fields(line)
			if strings.Contains(words[0], "/internal/") ||
				strings.HasSuffix(words[0], "/simulation") { // generators and test support
				continue
			}
			for _, dep := range words[1:] {
				assert.NotContains(t, impure, dep, "%s must be pure", words[0])
				assert.NotContains(t, heavy, dep, "%s is on the phone", words[0])
			}
		}
	}
}

func TestOnlyOnePackageKnowsEachTechnology(t *testing.T) {
	homes := map[string]string{"github.com/labstack/echo/v4": "garlandry/pwa/serve",
		"go.etcd.io/bbolt": "garlandry/app/store", "github.com/alecthomas/kong": "garlandry/cmd/garlandry"}
	for _, line := range list(t, nil, "-f", "{{.ImportPath}}{{range .Imports}} {{.}}{{end}}", "garlandry/...") {
		words := strings.Fields(line)
		for _, dep := range words[1:] {
			for technology, home := range homes {
				if under(dep, technology) {
					assert.True(t, under(words[0], home), "%s imports %s, which only %s may import", words[0], dep, home)
				}
			}
		}
	}
}

func list(t *testing.T, env []string, args ...string) []string {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list"}, args...)...)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

func under(path, prefix string) bool { return path == prefix || strings.HasPrefix(path, prefix+"/") }

func anyUnder(path string, prefixes []string) bool {
	for _, p := range prefixes {
		if under(path, p) {
			return true
		}
	}
	return path == ""
}
