package view_test

import (
	"testing"

	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
)

func TestPlatformOf(t *testing.T) {
	const mac = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) "
	for _, row := range []struct {
		name, agent string
		touch       int
		want        view.Platform
		forgets     bool
	}{
		{"iPhone", "Mozilla/5.0 (iPhone; CPU iPhone OS 16_4 like Mac OS X) AppleWebKit/605.1.15 Version/16.4 Safari/604.1", 5,
			view.IPhone, true},
		{"an iPad calls itself a Mac", mac + "Version/17.4 Safari/605.1.15", 5, view.IPad, true},
		{"a Mac has no touch screen", mac + "Version/17.4 Safari/605.1.15", 0, view.MacSafari, true},
		{"an old iPad", "Mozilla/5.0 (iPad; CPU OS 12_5 like Mac OS X) Safari/604.1", 5, view.IPad, true},
		{"another browser on a Mac", mac + "Chrome/140.0 Safari/537.36", 0, view.Chromium, false},
		{"Android", "Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 Chrome/140.0 Mobile Safari/537.36", 5, view.Android,
			false},
		{"Firefox on Android", "Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0", 5,
			view.AndroidFirefox, false},
		{"a laptop with a touch screen", "Mozilla/5.0 (Windows NT 10.0; Win64; x64) Chrome/140.0 Safari/537.36", 10,
			view.Chromium, false},
		{"Firefox on a computer cannot install", "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", 0,
			"", false},
		{"unknown", "curl/8", 0, "", false},
	} {
		got := view.PlatformOf(row.agent, row.touch)
		assert.Equal(t, row.want, got, row.name)
		assert.Equal(t, row.forgets, got.Forgets(), row.name)
	}
}
