package static_test

import (
	"bytes"
	"image/png"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/static"
)

func TestFilesHoldWhatBrowsersLoad(t *testing.T) {
	for name, size := range map[string][2]int{"icons/icon-192.png": {192, 192}, "icons/icon-512.png": {512, 512},
		"icons/maskable-512.png": {512, 512}, "icons/touch-180.png": {180, 180},
		"icons/screenshot-narrow.png": {780, 1688}, "icons/screenshot-wide.png": {1280, 800}} {
		data, err := fs.ReadFile(static.Files, name)
		require.NoError(t, err)
		config, err := png.DecodeConfig(bytes.NewReader(data))
		require.NoError(t, err, name)
		assert.Equal(t, size, [2]int{config.Width, config.Height}, name)
	}
	for _, name := range []string{"css/app.css", "js/main.js", "icons/icon.svg"} {
		data, err := fs.ReadFile(static.Files, name)
		require.NoError(t, err)
		assert.NotEmpty(t, data, name)
	}
	_, err := fs.Stat(static.Files, "gen")
	assert.NoError(t, err, "the folder of the bundle is there even before it is built")
}
