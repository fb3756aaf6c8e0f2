//go:build !js

package browsertest

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"strings"
	"time"
)

// callLimit bounds one command to a browser.
const callLimit = 40 * time.Second

// command is a command of W3C WebDriver: its name in Marionette, and its method and path over HTTP.
type command struct{ name, method, path string }

// The commands that tests need.
var (
	newSession = command{"WebDriver:NewSession", "POST", ""}
	navigate   = command{"WebDriver:Navigate", "POST", "/url"}
	execute    = command{"WebDriver:ExecuteScript", "POST", "/execute/sync"}
	setRect    = command{"WebDriver:SetWindowRect", "POST", "/window/rect"}
	actions    = command{"WebDriver:PerformActions", "POST", "/actions"}
	picture    = command{"WebDriver:TakeScreenshot", "GET", "/screenshot"}
)

// transport carries commands to a browser.
type transport interface {
	call(c command, parameters any) (json.RawMessage, error)
	end() error
}

// webDriver drives a browser by the commands of W3C WebDriver.
type webDriver struct {
	transport
	name string
}

type object map[string]any

// Open implements Browser.
func (w *webDriver) Open(address string) error {
	_, err := w.call(navigate, object{"url": address})
	return err
}

// Eval implements Browser.
func (w *webDriver) Eval(expression string) (string, error) {
	answer, err := w.call(execute, object{"script": "return String(" + expression + ")", "args": []any{}})
	if err != nil {
		return "", err
	}
	var text string
	if err := json.Unmarshal(bare(answer), &text); err != nil {
		return "", fmt.Errorf("%s answered %.200s: %w", w.name, answer, err)
	}
	return text, nil
}

// Tap implements Browser.
func (w *webDriver) Tap(selector string) error {
	x, y, err := aimed(w, selector)
	if err != nil {
		return err
	}
	return w.act(object{
		"type": "pointer", "id": "finger", "parameters": object{"pointerType": "mouse"},
		"actions": []object{
			{"type": "pointerMove", "duration": 0, "x": int(x), "y": int(y), "origin": "viewport"},
			{"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0},
		},
	})
}

// Press implements Browser.
func (w *webDriver) Press(key string) error {
	name, shifted := strings.CutPrefix(key, "Shift+")
	codes := map[string]string{"Tab": "\ue004", "Enter": "\ue007", "Escape": "\ue00c",
		"ArrowUp": "\ue013", "ArrowRight": "\ue014"}
	if code, is := codes[name]; is {
		name = code
	}
	strokes := []object{{"type": "keyDown", "value": name}, {"type": "keyUp", "value": name}}
	if shifted {
		const shift = "\ue008"
		strokes = append([]object{{"type": "keyDown", "value": shift}}, strokes...)
		strokes = append(strokes, object{"type": "keyUp", "value": shift})
	}
	return w.act(object{"type": "key", "id": "keys", "actions": strokes})
}

func (w *webDriver) act(source object) error {
	_, err := w.call(actions, object{"actions": []object{source}})
	return err
}

// Size implements Browser. A window has borders and bars, so it asks what is left for the page and tries again.
func (w *webDriver) Size(width, height int) error {
	outerWidth, outerHeight := width, height
	var have string
	for range 4 {
		if _, err := w.call(setRect, object{"width": outerWidth, "height": outerHeight}); err != nil {
			return err
		}
		want := fmt.Sprintf("%d %d", width, height)
		sized := func() bool {
			have, _ = w.Eval(`innerWidth + ' ' + innerHeight`)
			return have == want
		}
		if wait(time.Second, sized) {
			return nil
		}
		var innerWidth, innerHeight int
		if _, err := fmt.Sscan(have, &innerWidth, &innerHeight); err != nil {
			return fmt.Errorf("size of the page %q: %w", have, err)
		}
		outerWidth, outerHeight = outerWidth+width-innerWidth, outerHeight+height-innerHeight
	}
	return fmt.Errorf("the page is %s, not %d %d", have, width, height)
}

// Picture implements Browser.
func (w *webDriver) Picture() ([]byte, error) {
	answer, err := w.call(picture, object{"full": false})
	if err != nil {
		return nil, err
	}
	var text string
	if err := json.Unmarshal(bare(answer), &text); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(text)
}

// Close implements Browser.
func (w *webDriver) Close() error { return w.end() }

// bare takes a value out of the object that Marionette puts around it.
func bare(answer json.RawMessage) json.RawMessage {
	var wrapped struct {
		Value json.RawMessage `json:"value"`
	}
	if json.Unmarshal(answer, &wrapped) == nil && wrapped.Value != nil {
		return wrapped.Value
	}
	return answer
}
