//go:build !js

package browsertest

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// marionette carries WebDriver commands to Firefox by its own protocol: JSON with its length in front, over TCP. Debian
// packs no geckodriver, and this is all that geckodriver does.
type marionette struct {
	browser *process
	line    net.Conn
	reader  *bufio.Reader
	sent    int
}

// firefoxSettings let Firefox choose a free port and let its window become as narrow as a phone.
const firefoxSettings = `user_pref("marionette.port", 0);
user_pref("toolkit.legacyUserProfileCustomizations.stylesheets", true);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.aboutConfig.showWarning", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
`

// narrowWindow is a style sheet for Firefox's own window.
const narrowWindow = `:root, #main-window, #navigator-toolbox { min-width: 0 !important; }
#navigator-toolbox { display: none !important; }
`

func startFirefox(_ *testing.T, profile string) (Browser, error) {
	if err := os.MkdirAll(filepath.Join(profile, "chrome"), 0o700); err != nil {
		return nil, err
	}
	port := filepath.Join(profile, "MarionetteActivePort")
	_ = os.Remove(port) // an earlier start's
	for name, text := range map[string]string{"user.js": firefoxSettings, "chrome/userChrome.css": narrowWindow} {
		if err := os.WriteFile(filepath.Join(profile, name), []byte(text), 0o600); err != nil {
			return nil, err
		}
	}
	command := exec.Command(program(os.Getenv("FIREFOX"), "firefox-esr", "firefox"),
		"--headless", "--marionette", "--no-remote", "--profile", profile)
	command.Env = append(os.Environ(), "HOME="+profile, "MOZ_CRASHREPORTER_DISABLE=1")
	browser, err := begin(command)
	if err != nil {
		return nil, err
	}
	m := &marionette{browser: browser}
	if err := m.connect(port); err != nil {
		browser.stop()
		return nil, fmt.Errorf("%w; Firefox printed: %s", err, browser.output)
	}
	return &webDriver{transport: m, name: "Firefox"}, nil
}

// connect waits for the port that Firefox writes into its profile and opens a session there.
func (m *marionette) connect(portFile string) error {
	var port string
	if !wait(callLimit, func() bool {
		text, err := os.ReadFile(portFile)
		port = strings.TrimSpace(string(text))
		return err == nil && port != ""
	}) {
		return errors.New("no port within the time limit")
	}
	line, err := net.DialTimeout("tcp", net.JoinHostPort("127.0.0.1", port), callLimit)
	if err != nil {
		return err
	}
	m.line, m.reader = line, bufio.NewReader(line)
	if _, err := m.read(); err != nil { // it greets
		return err
	}
	_, err = m.call(newSession, object{})
	return err
}

func (m *marionette) read() (json.RawMessage, error) {
	if err := m.line.SetReadDeadline(time.Now().Add(callLimit)); err != nil {
		return nil, err
	}
	length, err := m.reader.ReadString(':')
	if err != nil {
		return nil, err
	}
	size, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return nil, err
	}
	message := make([]byte, size)
	_, err = io.ReadFull(m.reader, message)
	return message, err
}

func (m *marionette) call(c command, parameters any) (json.RawMessage, error) {
	m.sent++
	message, err := json.Marshal([]any{0, m.sent, c.name, parameters})
	if err != nil {
		return nil, err
	}
	if _, err := fmt.Fprintf(m.line, "%d:%s", len(message), message); err != nil {
		return nil, err
	}
	for {
		text, err := m.read()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
		var answer [4]json.RawMessage // a mark, the number, the fault, the value
		if err := json.Unmarshal(text, &answer); err != nil {
			return nil, err
		}
		if string(answer[1]) != strconv.Itoa(m.sent) {
			continue // to a command whose time was over
		}
		if string(answer[2]) != "null" {
			return nil, fmt.Errorf("%s: %.500s", c.name, answer[2])
		}
		return answer[3], nil
	}
}

func (m *marionette) end() error {
	if m.line != nil {
		_, _ = m.call(command{name: "Marionette:Quit"}, object{"flags": []string{"eForceQuit"}})
		m.line.Close()
		m.line = nil
	}
	m.browser.endsIn(5 * time.Second)
	m.browser.stop()
	return nil
}
