//go:build !js

package browsertest

import (
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"
)

// Browser is one profile of a browser engine with one page. Expressions are JavaScript.
type Browser interface {
	// Open loads an address and waits for the page's load event.
	Open(address string) error
	// Eval returns the value of an expression as text. An exception is an error.
	Eval(expression string) (string, error)
	// Tap scrolls the first element that matches into view and clicks its middle, as a person does. It is an error
	// if another element covers the middle.
	Tap(selector string) error
	// Press presses and releases one key on what has focus: a character, "Tab", "Shift+Tab", "Enter", "Escape",
	// "ArrowUp" or "ArrowRight".
	Press(key string) error
	// Size gives the page a width and a height in CSS pixels.
	Size(width, height int) error
	// Picture returns what is on the screen as PNG.
	Picture() ([]byte, error)
	// Close ends the browser.
	Close() error
}

// Engine is a browser engine that tests run in.
type Engine struct {
	Name     string
	programs [][]string // what must be installed: each by the names it goes by
	get      string     // how to get it
	start    func(t *testing.T, profile string) (Browser, error)
}

// Engines lists the engines: Chromium first, which every browser test uses.
func Engines() []Engine {
	return []Engine{
		{
			Name:     "Chromium",
			programs: [][]string{{os.Getenv("CHROMIUM"), "chromium", "google-chrome"}},
			get:      "apt-get install chromium",
			start:    func(t *testing.T, profile string) (Browser, error) { return StartChromium(profile, Optimised) },
		},
		{
			Name:     "Firefox",
			programs: [][]string{{os.Getenv("FIREFOX"), "firefox-esr", "firefox"}},
			get:      "apt-get install firefox-esr",
			start:    startFirefox,
		},
		{
			Name:     "WebKit",
			programs: [][]string{{"WebKitWebDriver"}, {"Xvfb"}},
			get:      "apt-get install webkit2gtk-driver xvfb",
			start:    startWebKit,
		},
	}
}

// Missing says how to get the engine if it is not installed. It is empty if all is there.
func (e Engine) Missing() string {
	for _, names := range e.programs {
		if program(names...) == "" {
			return fmt.Sprintf("%s is not installed: %s", e.Name, e.get)
		}
	}
	return ""
}

// Start starts the engine with a profile folder and a page of a phone's size. It ends with the test. WebKit keeps its
// profile in memory, so there a second start with the same folder begins anew.
func (e Engine) Start(t *testing.T, profile string) Browser {
	t.Helper()
	browser, err := e.start(t, profile)
	if err != nil {
		t.Fatalf("%s: %v", e.Name, err)
	}
	t.Cleanup(func() { _ = browser.Close() })
	if err := browser.Size(390, 844); err != nil {
		t.Fatalf("%s: %v", e.Name, err)
	}
	return browser
}

// Each runs a test in every installed engine, side by side. GARLANDRY_ENGINES=all makes a missing engine a failure.
func Each(t *testing.T, test func(t *testing.T, engine Engine)) {
	t.Helper()
	if testing.Short() {
		t.Skip("browser tests are left out of -short")
	}
	for _, engine := range Engines() {
		t.Run(engine.Name, func(t *testing.T) {
			if missing := engine.Missing(); missing != "" {
				if os.Getenv("GARLANDRY_ENGINES") == "all" {
					t.Fatalf("GARLANDRY_ENGINES=all, and %s", missing)
				}
				t.Skip(missing)
			}
			t.Parallel()
			test(t, engine)
		})
	}
}

// program returns the path of the first program that is installed.
func program(names ...string) string {
	for _, name := range names {
		if name == "" {
			continue
		}
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// wait asks until the answer is there or the time is over.
func wait(limit time.Duration, there func() bool) bool {
	for end := time.Now().Add(limit); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if there() {
			return true
		}
	}
	return there()
}

// aim is a script that scrolls an element into view and returns its middle as "x y", or why nobody could tap it.
const aim = `((selector) => {
	const element = document.querySelector(selector);
	if (!element) return 'no element matches ' + selector;
	const box = () => element.getBoundingClientRect();
	const hit = () => document.elementFromPoint(box().left + box().width / 2, box().top + box().height / 2);
	const fine = () => { const e = hit(); return e && (element.contains(e) || e.closest('label')?.control === element); };
	if (!fine()) element.scrollIntoView({ block: 'center', behavior: 'instant' });
	if (!fine() && !hit()) return selector + ' is out of view';
	if (!fine()) return selector + ' is covered by ' + hit().outerHTML.slice(0, 120);
	return (box().left + box().width / 2) + ' ' + (box().top + box().height / 2);
})`

// aimed runs the aim script and returns the point.
func aimed(b Browser, selector string) (x, y float64, err error) {
	at, err := b.Eval(fmt.Sprintf(`%s(%q)`, aim, selector))
	if err != nil {
		return 0, 0, err
	}
	if _, err := fmt.Sscanf(at, "%g %g", &x, &y); err != nil {
		return 0, 0, fmt.Errorf("cannot tap: %s", at)
	}
	return x, y, nil
}
