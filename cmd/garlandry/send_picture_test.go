package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// received is an expression for the PNG that window.sent holds: its type, width, and how many of its pixels, one in a
// hundred, differ from the first.
const received = `(async () => {
	const bitmap = await createImageBitmap(window.sent);
	const canvas = document.createElement('canvas');
	canvas.width = bitmap.width; canvas.height = bitmap.height;
	const pen = canvas.getContext('2d');
	pen.drawImage(bitmap, 0, 0);
	const pixels = new Uint32Array(pen.getImageData(0, 0, canvas.width, canvas.height).data.buffer);
	let seen = 0;
	const colours = new Set();
	for (let i = 0; i < pixels.length; i += 100) if (pixels[i] !== pixels[0]) { seen++; colours.add(pixels[i]); }
	return [window.sent.type, bitmap.width, seen / (pixels.length / 100) > 0.1, colours.size > 100].join(' ');
})()`

// TestBrowserSendsThePicture sends a piece's picture as a file where the browser can, else it saves it. Both times it
// is a PNG of 2,000 px with the balloons in their colours.
func TestBrowserSendsThePicture(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	for _, row := range []struct{ name, able, said string }{
		{"saved", `navigator.canShare = undefined;
			const made = URL.createObjectURL;
			URL.createObjectURL = (blob) => {
				if (blob.name) { window.sent = blob; window.name = blob.name; }
				return made(blob);
			};
			HTMLAnchorElement.prototype.click = () => {};`, "Picture saved."},
		{"sent", `navigator.canShare = () => true;
			navigator.share = async ({ files }) => { window.sent = files[0]; window.name = files[0].name; };`, ""},
	} {
		p.open(server.address + job + "/pieces/door")
		p.ready()
		p.text(`void (() => { window.sent = null; ` + row.able + ` })()`)
		p.tap(`#piece-acts [data-picture]`)
		p.until(`window.sent`)
		assert.Equal(t, "image/png 2000 true true", p.promised(received), row.name)
		assert.Equal(t, "Door garland.png", p.text(`window.name`), row.name)
		if row.said != "" {
			p.toastSays(row.said)
		}
	}
}
