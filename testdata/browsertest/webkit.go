//go:build !js

package browsertest

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// overHTTP carries WebDriver commands to WebKitGTK's driver, which starts the browser.
type overHTTP struct {
	screen, driver *process
	session        string // address
	client         *http.Client
}

// smallBars is a style sheet for GTK that makes the bars small enough for a window as narrow as a phone.
const smallBars = `* { min-width: 0; min-height: 0; margin: 0; padding: 0; border-width: 0; font-size: 1px; }
entry, entry * { font-size: 1px; -gtk-icon-source: none; }
`

func startWebKit(_ *testing.T, profile string) (Browser, error) {
	config := filepath.Join(profile, "config")
	if err := os.MkdirAll(filepath.Join(config, "gtk-3.0"), 0o700); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(config, "gtk-3.0", "gtk.css"), []byte(smallBars), 0o600); err != nil {
		return nil, err
	}
	screen, display, err := startScreen()
	if err != nil {
		return nil, err
	}
	command := exec.Command(program("WebKitWebDriver"), "--port=0")
	command.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+profile, "XDG_CONFIG_HOME="+config,
		"XDG_CACHE_HOME="+profile, "XDG_DATA_HOME="+profile, "XDG_RUNTIME_DIR="+profile,
		"GDK_BACKEND=x11", "NO_AT_BRIDGE=1", "LIBGL_ALWAYS_SOFTWARE=1", "WEBKIT_DISABLE_DMABUF_RENDERER=1")
	driver, err := begin(command)
	if err != nil {
		screen.stop()
		return nil, err
	}
	w := &overHTTP{screen: screen, driver: driver, client: &http.Client{Timeout: callLimit}}
	if err := w.connect(); err != nil {
		_ = w.end()
		return nil, fmt.Errorf("%w; driver and screen printed: %s%s", err, driver.output, screen.output)
	}
	return &webDriver{transport: w, name: "WebKit"}, nil
}

// startScreen starts a screen in memory, which chooses a free number.
func startScreen() (screen *process, display string, err error) {
	read, write, err := os.Pipe()
	if err != nil {
		return nil, "", err
	}
	defer read.Close()
	command := exec.Command(program("Xvfb"), "-displayfd", "3", "-screen", "0", "1400x1400x24", "-nolisten", "tcp")
	command.ExtraFiles = []*os.File{write}
	screen, err = begin(command)
	write.Close()
	if err != nil {
		return nil, "", err
	}
	_ = read.SetReadDeadline(time.Now().Add(callLimit))
	number, err := bufio.NewReader(read).ReadString('\n') // it ends if nobody reads all that it writes
	if err != nil {
		screen.stop()
		return nil, "", fmt.Errorf("no screen: %w: %s", err, screen.output)
	}
	return screen, ":" + strings.TrimSpace(number), nil
}

// connect opens a session with the small browser that comes with WebKitGTK.
func (w *overHTTP) connect() error {
	var port string
	if !wait(callLimit, func() bool {
		port = listening(w.driver.command.Process.Pid)
		return port != ""
	}) {
		return errors.New("WebKitWebDriver listens nowhere")
	}
	browsers, _ := filepath.Glob("/usr/lib*/*/webkit2gtk-4*/MiniBrowser")
	more, _ := filepath.Glob("/usr/lib*/webkit2gtk-4*/MiniBrowser")
	if browsers = append(browsers, more...); len(browsers) == 0 {
		return errors.New("WebKitGTK's MiniBrowser is not there")
	}
	w.session = "http://127.0.0.1:" + port + "/session"
	answer, err := w.call(newSession, object{"capabilities": object{"alwaysMatch": object{
		"webkitgtk:browserOptions": object{"binary": browsers[0], "args": []string{"--automation"}},
	}}})
	if err != nil {
		return err
	}
	var opened struct{ SessionID string }
	if err := json.Unmarshal(answer, &opened); err != nil {
		return err
	}
	w.session += "/" + opened.SessionID
	return nil
}

func (w *overHTTP) call(c command, parameters any) (json.RawMessage, error) {
	var body io.Reader
	if c.method == http.MethodPost {
		text, err := json.Marshal(parameters)
		if err != nil {
			return nil, err
		}
		body = bytes.NewReader(text)
	}
	request, err := http.NewRequest(c.method, w.session+c.path, body)
	if err != nil {
		return nil, err
	}
	response, err := w.client.Do(request)
	if err != nil {
		return nil, err
	}
	defer response.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(response.Body).Decode(&answer); err != nil {
		return nil, err
	}
	if response.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("%s: %.500s", c.name, answer.Value)
	}
	return answer.Value, nil
}

func (w *overHTTP) end() error {
	w.client.Timeout = 5 * time.Second
	_, _ = w.call(command{method: http.MethodDelete}, nil)
	w.driver.stop()
	w.screen.stop()
	return nil
}

// listening returns the port on which a process listens. The system lists a process's sockets and all ports.
func listening(pid int) string {
	sockets := map[string]bool{}
	folder := fmt.Sprintf("/proc/%d/fd", pid)
	files, _ := os.ReadDir(folder)
	for _, file := range files {
		to, _ := os.Readlink(filepath.Join(folder, file.Name()))
		sockets[strings.TrimSuffix(strings.TrimPrefix(to, "socket:["), "]")] = true
	}
	table, _ := os.ReadFile("/proc/net/tcp")
	for _, row := range strings.Split(string(table), "\n") {
		fields := strings.Fields(row)
		const listens = "0A"
		if len(fields) < 10 || fields[3] != listens || !sockets[fields[9]] {
			continue
		}
		_, hex, _ := strings.Cut(fields[1], ":")
		if port, err := strconv.ParseUint(hex, 16, 16); err == nil {
			return strconv.FormatUint(port, 10)
		}
	}
	return ""
}
