package page

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cssColours lists rows of the table in section 6.1, Named Colors, of CSS Color Module Level 4 (W3C,
// w3.org/TR/css-color-4) in decimal: red, green, blue.
const cssColours = `
aqua 0 255 255
aquamarine 127 255 212
beige 245 245 220
blue 0 0 255
brown 165 42 42
chocolate 210 105 30
crimson 220 20 60
cyan 0 255 255
fuchsia 255 0 255
gold 255 215 0
gray 128 128 128
green 0 128 0
grey 128 128 128
hotpink 255 105 180
indigo 75 0 130
ivory 255 255 240
khaki 240 230 140
lavender 230 230 250
lightblue 173 216 230
lightgreen 144 238 144
lightpink 255 182 193
lime 0 255 0
linen 250 240 230
magenta 255 0 255
maroon 128 0 0
navy 0 0 128
olive 128 128 0
orange 255 165 0
orchid 218 112 214
peachpuff 255 218 185
pink 255 192 203
purple 128 0 128
royalblue 65 105 225
salmon 250 128 114
sienna 160 82 45
silver 192 192 192
skyblue 135 206 235
tan 210 180 140
teal 0 128 128
tomato 255 99 71
turquoise 64 224 208
violet 238 130 238
wheat 245 222 179
yellow 255 255 0
`

func TestWebColoursMatchTheStandard(t *testing.T) {
	published := map[string]string{}
	for _, row := range strings.Split(strings.TrimSpace(cssColours), "\n") {
		fields := strings.Fields(row)
		require.Len(t, fields, 4)
		value := "#"
		for _, field := range fields[1:] {
			n, err := strconv.ParseUint(field, 10, 8)
			require.NoError(t, err)
			value += strconv.FormatUint(n+256, 16)[1:]
		}
		published[fields[0]] = value
	}
	names := strings.Fields(webColours)
	assert.Len(t, names, len(published), "every name must be checked")
	for _, entry := range names {
		name, _, _ := strings.Cut(entry, ":")
		require.Contains(t, published, name)
		assert.Equal(t, published[name], webColour(name), name)
	}
	assert.Empty(t, webColour("ue"), "a part of a name must not match")
}
