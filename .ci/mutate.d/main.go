// Mutate breaks the code on purpose, one rule at a time, and prints whether a test noticed. A break is laid over the
// source with the compiler's overlay, or over a copy of the tree where a browser loads it, so the checkout stays as it
// is.
//
//	go run ./.ci/mutate.d [-only REGEXP] [-fast] [-texts] [-at-once N] [-limit DURATION]
//
// A text that does not occur exactly once, a break that does not compile, and a test that fails without any break are
// errors to mend: they count neither way.
package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"
)

// mutation is one break: in a file, one text becomes another, and a test should notice.
type mutation struct {
	name, file, old, new string
	test                 test
}

// test is what `go test` runs of a package: the tests that match a pattern.
type test struct {
	pkg, pattern string
	browser      bool // it runs in a browser, which -short leaves out
}

func (t test) String() string { return t.pkg + " " + t.pattern }

// by returns the test of a name.
func by(pkg, name string) test { return test{pkg: pkg, pattern: "^" + name + "$"} }

// seen returns the browser test of a name.
func seen(pkg, name string) test { return test{pkg: pkg, pattern: "^" + name + "$", browser: true} }

var (
	only   = flag.String("only", "", "only the breaks whose name matches this regular expression")
	atOnce = flag.Int("at-once", runtime.NumCPU()+1, "how many breaks to try at a time; a few only wait")
	fast   = flag.Bool("fast", false, "leave out the breaks that only a browser notices")
	texts  = flag.Bool("texts", false, "only check that each break finds its text once")
	limit  = flag.Duration("limit", 4*time.Minute, "for one test run")
	share  = flag.Float64("live", 0.05, "the share of breaks that may go unnoticed")
)

func main() {
	flag.Parse()
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run() error {
	root, err := os.Getwd()
	if err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	wanted, err := regexp.Compile(*only)
	if err != nil {
		return err
	}
	var chosen []mutation
	for _, m := range list() {
		if wanted.MatchString(m.name) && !(*fast && m.browser()) {
			chosen = append(chosen, m)
		}
	}
	if err := findTexts(root, chosen); err != nil || *texts {
		return err
	}
	began := time.Now()
	died, broken, live := tryAll(root, work, chosen)
	tried := died + len(live)
	fmt.Printf("%d of %d breaks die; %d left out, %d to mend; %.0f s\n", died, tried, len(list())-len(chosen), broken,
		time.Since(began).Seconds())
	switch {
	case broken > 0:
		return fmt.Errorf("%d breaks have to be mended in %s", broken, ".ci/mutate.d")
	case float64(len(live)) > *share*float64(max(tried, 1)):
		return fmt.Errorf("no test noticed: %s", strings.Join(live, "; "))
	}
	return nil
}

// findTexts returns an error that names each break whose text does not occur exactly once in its file.
func findTexts(root string, breaks []mutation) error {
	var wrong []error
	for _, m := range breaks {
		if _, err := m.source(root); err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", m.name, err))
		}
	}
	return errors.Join(wrong...)
}

// source returns the file that is to be broken, or an error if the text to break does not occur in it exactly once.
func (m mutation) source(root string) ([]byte, error) {
	source, err := os.ReadFile(filepath.Join(root, m.file))
	if err != nil {
		return nil, err
	}
	if n := strings.Count(string(source), m.old); n != 1 {
		return nil, fmt.Errorf("%s has the text %d times, want once: %q", m.file, n, m.old)
	}
	return source, nil
}

// tryAll tries the breaks, as many at a time as -at-once says, and prints each. It returns how many died, how many have
// to be mended, and the names of those that no test noticed.
func tryAll(root, work string, breaks []mutation) (died, broken int, live []string) {
	todo := make(chan mutation)
	go func() {
		defer close(todo)
		for _, m := range breaks {
			todo <- m
		}
	}()
	healthy := newHealth(root, breaks)
	var printing sync.Mutex
	var workers sync.WaitGroup
	for i := range *atOnce {
		b := bench{root: root, work: filepath.Join(work, fmt.Sprint(i)), health: healthy}
		workers.Go(func() {
			for m := range todo {
				began := time.Now()
				noticed, err := b.try(m)
				printing.Lock()
				word := "dies "
				switch {
				case err != nil:
					word = "ERROR"
					broken++
				case !noticed:
					word = "LIVES"
					live = append(live, m.name)
				default:
					died++
				}
				fmt.Printf("%s  %-62s %5.1fs  %s\n", word, m.name, time.Since(began).Seconds(),
					m.test)
				if err != nil {
					fmt.Printf("       %v\n", err)
				}
				printing.Unlock()
			}
		})
	}
	workers.Wait()
	return died, broken, live
}

// browser reports whether the break is in what a browser loads out of the bundle.
func (m mutation) browser() bool {
	return strings.HasPrefix(m.file, "static/js/") && m.file != "static/js/disk.js" && m.file != "static/js/outbox.js"
}

// bench is where breaks are tried, one at a time.
type bench struct {
	root, work string
	health     *health
	copied     string // a copy of the tree, "" until one is needed
}

// health remembers how the tests of a package end without any break. All benches share it.
type health struct {
	root     string
	patterns map[test][]string // the tests that breaks name, by package and whether in a browser
	mu       sync.Mutex
	ends     map[test]func() error
}

// group is the test without its name: those of one group are run together.
func (t test) group() test { return test{pkg: t.pkg, browser: t.browser} }

func newHealth(root string, breaks []mutation) *health {
	h := &health{root: root, patterns: map[test][]string{}, ends: map[test]func() error{}}
	for _, m := range breaks {
		group := m.test.group()
		if named := h.patterns[group]; !slices.Contains(named, m.test.pattern) {
			h.patterns[group] = append(named, m.test.pattern)
		}
	}
	return h
}

// try reports whether the test noticed the break.
func (b *bench) try(m mutation) (noticed bool, err error) {
	source, err := m.source(b.root)
	if err != nil {
		return false, err
	}
	broken := []byte(strings.Replace(string(source), m.old, m.new, 1))
	if err := b.health.check(m.test.group()); err != nil {
		return false, err
	}
	if err := os.MkdirAll(b.work, 0o700); err != nil {
		return false, err
	}
	dir, extra, restore, err := b.place(m, source, broken)
	if err != nil {
		return false, err
	}
	defer restore()
	out, err := runTest(dir, m.test, *limit, extra...)
	switch {
	case strings.Contains(out, "[build failed]") || strings.Contains(out, "[setup failed]"):
		return false, fmt.Errorf("it does not compile:\n%s", out)
	case errors.Is(err, errSkipped):
		return false, fmt.Errorf("%s was skipped:\n%s", m.test, out)
	}
	return err != nil, nil
}

// place lays the break over the source: by an overlay of the compiler, or in a copy of the tree with its bundle made
// anew.
func (b *bench) place(m mutation, source, broken []byte) (dir string, extra []string, restore func(), err error) {
	if strings.HasSuffix(m.file, ".go") {
		path := filepath.Join(b.work, "broken.go")
		overlay, err := json.Marshal(map[string]map[string]string{"Replace": {filepath.Join(b.root, m.file): path}})
		if err == nil {
			err = errors.Join(os.WriteFile(path, broken, 0o600),
				os.WriteFile(filepath.Join(b.work, "overlay.json"), overlay, 0o600))
		}
		return b.root, []string{"-overlay", filepath.Join(b.work, "overlay.json")}, func() {}, err
	}
	if err := b.copyTree(); err != nil {
		return "", nil, nil, err
	}
	path := filepath.Join(b.copied, m.file)
	if err := os.WriteFile(path, broken, 0o600); err != nil {
		return "", nil, nil, err
	}
	restore = func() { _ = os.WriteFile(path, source, 0o600) } // the copy is thrown away in the end
	if m.browser() {
		shell := filepath.Join(b.copied, "pwa", "shell")
		if out, err := runCommand(shell, *limit, "go", "run", "./bundle", "-quick"); err != nil {
			restore()
			return "", nil, nil, fmt.Errorf("bundle: %w\n%s", err, out)
		}
	}
	return b.copied, nil, restore, nil
}

// copyTree copies what git knows of, and the bundle.
func (b *bench) copyTree() error {
	if b.copied != "" {
		return nil
	}
	to := filepath.Join(b.work, "tree")
	if err := os.Mkdir(to, 0o700); err != nil {
		return err
	}
	out, err := runCommand(b.root, *limit, "sh", "-c",
		`{ git ls-files -co --exclude-standard; find static/gen -type f; } | sort -u | tar -cf - -T - | tar -xf - -C "$0"`,
		to)
	if err != nil {
		return fmt.Errorf("copy the tree: %w\n%s", err, out)
	}
	b.copied = to
	return nil
}

// check reports how the tests of a group end without a break: they have to pass, and to run at all.
func (h *health) check(group test) error {
	h.mu.Lock()
	ends := h.ends[group]
	if ends == nil {
		ends = sync.OnceValue(func() error {
			whole := group
			whole.pattern = strings.Join(h.patterns[group], "|")
			out, err := runTest(h.root, whole, 5**limit) // many tests
			if err != nil {
				return fmt.Errorf("without any break %s ends with %w:\n%s", group.pkg, err, out)
			}
			return nil
		})
		h.ends[group] = ends
	}
	h.mu.Unlock()
	return ends()
}

// errSkipped says that nothing of what was asked for was tested.
var errSkipped = errors.New("a skipped test, or none")

// runTest runs a test with `go test` and returns the end of what it printed.
func runTest(dir string, t test, within time.Duration, extra ...string) (string, error) {
	args := []string{"test", "-count=1", "-v", "-failfast", "-vet=off", "-timeout", within.String()}
	if !t.browser {
		args = append(args, "-short")
	}
	out, err := runCommand(dir, within, "go", append(append(args, extra...), t.pkg, "-run", t.pattern)...)
	if err == nil && (!strings.Contains(out, "--- PASS") || strings.Contains(out, "\n--- SKIP")) {
		err = errSkipped
	}
	return tail(out), err
}

// runCommand runs a command in a directory, for not much longer than it is given.
func runCommand(dir string, within time.Duration, name string, args ...string) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), within+time.Minute)
	defer cancel()
	command := exec.CommandContext(ctx, name, args...)
	command.Dir = dir
	// Each break has to die in tests that are quick: in one browser, and over two pages of the gallery.
	command.Env = append(os.Environ(), "GARLANDRY_LONG=", "GARLANDRY_EXTERNAL=", "GARLANDRY_ENGINES=",
		"GARLANDRY_SHOTS_ONLY=brief,overview")
	command.WaitDelay = 10 * time.Second
	out, err := command.CombinedOutput()
	return string(out), err
}

// tail is the end of an output, with what makes it an error.
func tail(out string) string {
	lines := strings.Split(strings.TrimSpace(out), "\n")
	return strings.Join(lines[max(0, len(lines)-30):], "\n")
}
