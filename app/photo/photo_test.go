package photo_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"testing"

	"garlandry/app/job"
	"garlandry/app/photo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// corners is a picture whose left half is red and right half blue, with the bottom right corner green.
func corners(wide, high int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			c := color.RGBA{200, 0, 0, 255}
			if x >= wide/2 {
				c = color.RGBA{0, 0, 200, 255}
			}
			if x >= wide/2 && y >= high/2 {
				c = color.RGBA{0, 200, 0, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func jpegOf(t *testing.T, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// with puts a segment with a marker behind the start of a JPEG.
func with(file []byte, marker byte, body string) []byte {
	segment := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(body)+2))
	return bytes.Join([][]byte{file[:2], append(segment, body...), file[2:]}, nil)
}

// exif is the body of an APP1 segment whose only entry is the orientation (TIFF 6.0).
func exif(orientation byte) string {
	return "Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00" +
		string([]byte{orientation}) + "\x00\x00\x00\x00\x00\x00"
}

// webP makes a WebP of chunks, each a name of four letters and its content (RFC 9649).
func webP(chunks ...string) []byte {
	body := []byte("WEBP")
	for _, c := range chunks {
		body = append(body, c[:4]...)
		body = binary.LittleEndian.AppendUint32(body, uint32(len(c)-4))
		body = append(body, c[4:]...)
		if len(c)%2 == 1 {
			body = append(body, 0)
		}
	}
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func TestOnlyAPictureIsStored(t *testing.T) {
	plain := jpegOf(t, corners(40, 30))
	for _, row := range []struct {
		name string
		file []byte
		kind string
		err  error
	}{
		{"a JPEG", plain, "image/jpeg", nil},
		{"one with a colour profile", with(plain, 0xe2, "ICC_PROFILE\x00\x01\x01profile"), "image/jpeg", nil},
		{"one with JFIF", with(plain, 0xe0, "JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00"), "image/jpeg", nil},
		{"Exif says where it was taken", with(plain, 0xe1, exif(1)), "", photo.ErrMetadata},
		{"XMP", with(plain, 0xe1, "http://ns.adobe.com/xap/1.0/\x00<x/>"), "", photo.ErrMetadata},
		{"more pictures in APP2", with(plain, 0xe2, "MPF\x00second"), "", photo.ErrMetadata},
		{"IPTC", with(plain, 0xed, "Photoshop 3.0\x00who"), "", photo.ErrMetadata},
		{"a comment", with(plain, 0xfe, "taken at home"), "", photo.ErrMetadata},
		{"a reserved marker", with(plain, 0xf3, "taken at home"), "", photo.ErrMetadata},
		{"bytes after the end", append(bytes.Clone(plain), "taken at home"...), "", photo.ErrMetadata},
		{"cut off", plain[:len(plain)-2], "", photo.ErrKind},
		{"cut off in a segment", plain[:30], "", photo.ErrKind},
		{"only its ends", []byte{0xff, 0xd8, 0xff, 0xd9}, "", photo.ErrKind},
		{"a WebP", webP("VP8 picture"), "image/webp", nil},
		{"a WebP with parts", webP("VP8X0123456789", "ICCPprofile", "ALPHalpha", "VP8 picture"), "image/webp", nil},
		{"a WebP with Exif", webP("VP8X0123456789", "VP8 picture", "EXIFMM"), "", photo.ErrMetadata},
		{"a WebP with XMP", webP("VP8X0123456789", "VP8 picture", "XMP <x/>"), "", photo.ErrMetadata},
		{"a WebP without a picture", webP("VP8X0123456789"), "", photo.ErrKind},
		{"a WebP with more behind it", append(webP("VP8 picture"), 1, 2), "", photo.ErrKind},
		{"a chunk longer than the file", append(webP("VP8 picture")[:16], 255, 255, 255, 255), "", photo.ErrKind},
		{"a page", []byte("<html><script>alert(1)</script>"), "", photo.ErrKind},
		{"nothing", nil, "", photo.ErrKind},
		{"too large", make([]byte, job.MostPhotoBytes+1), "", photo.ErrTooLarge},
	} {
		kind, err := photo.Check(row.file)
		if row.err != nil {
			assert.ErrorIs(t, err, row.err, row.name)
			continue
		}
		require.NoError(t, err, row.name)
		assert.Equal(t, row.kind, kind, row.name)
	}
}

func FuzzCheck(f *testing.F) {
	f.Add([]byte{0xff, 0xd8, 0xff, 0xda, 0, 2, 1, 0xff, 0xd9})
	f.Add(webP("VP8 picture"))
	f.Fuzz(func(t *testing.T, file []byte) {
		kind, err := photo.Check(file)
		assert.True(t, err != nil || kind == "image/jpeg" || kind == "image/webp")
	})
}

// TestMadeUpright turns a picture by each orientation of Exif 2.32 and looks for its red left and its green corner.
func TestMadeUpright(t *testing.T) {
	plain := jpegOf(t, corners(64, 32))
	for orientation, row := range [][2]image.Point{ // where the middle of the red half and the green corner come to lie
		1: {{16, 16}, {56, 28}}, 2: {{48, 16}, {8, 28}}, 3: {{48, 16}, {8, 4}}, 4: {{16, 16}, {56, 4}},
		5: {{16, 16}, {28, 56}}, 6: {{16, 16}, {4, 56}}, 7: {{16, 48}, {4, 8}}, 8: {{16, 48}, {28, 8}},
	} {
		if orientation == 0 {
			continue
		}
		made, err := photo.Make(with(plain, 0xe1, exif(byte(orientation))))
		require.NoError(t, err)
		kind, err := photo.Check(made.JPEG)
		require.NoError(t, err, "the server keeps what it made")
		assert.Equal(t, "image/jpeg", kind)
		m, err := jpeg.Decode(bytes.NewReader(made.JPEG))
		require.NoError(t, err)
		assert.Equal(t, image.Pt(made.WidthPX, made.HeightPX), m.Bounds().Size())
		assert.Equal(t, orientation > 4, made.HeightPX > made.WidthPX, "orientation %d", orientation)
		r, g, _, _ := m.At(row[0].X, row[0].Y).RGBA()
		assert.True(t, r > 150<<8 && g < 60<<8, "orientation %d: red at %v", orientation, row[0])
		r, g, _, _ = m.At(row[1].X, row[1].Y).RGBA()
		assert.True(t, g > 150<<8 && r < 60<<8, "orientation %d: green at %v", orientation, row[1])
	}
}

func TestMadeSmallEnough(t *testing.T) {
	noise := image.NewRGBA(image.Rect(0, 0, 2400, 1800))
	random := rand.New(rand.NewPCG(1, 2))
	for i := range noise.Pix {
		noise.Pix[i] = uint8(random.Uint32()) | 3
	}
	var file bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.NoCompression}).Encode(&file, noise))
	made, err := photo.Make(file.Bytes())
	require.NoError(t, err)
	assert.LessOrEqual(t, len(made.JPEG), job.MostPhotoBytes)
	assert.LessOrEqual(t, made.WidthPX, job.MostPhotoPX)
	assert.InDelta(t, 4.0/3, float64(made.WidthPX)/float64(made.HeightPX), 0.01, "its shape stays")

	made, err = photo.Make(jpegOf(t, corners(64, 32)))
	require.NoError(t, err)
	assert.Equal(t, [2]int{64, 32}, [2]int{made.WidthPX, made.HeightPX}, "a small one is not enlarged")
	var r, g, b int
	_, err = fmt.Sscan(made.Mean, &r, &g, &b)
	require.NoError(t, err)
	for i, value := range []int{r, g, b} { // half is red 200, a quarter each green and blue; JPEG loses a little
		assert.InDelta(t, []int{100, 50, 50}[i], value, 3)
	}
}

func TestWhatIsNoPhotoIsNotMade(t *testing.T) {
	_, err := photo.Make([]byte("GIF89a"))
	assert.ErrorIs(t, err, photo.ErrKind)
	head := binary.BigEndian.AppendUint32([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"), 60000)
	head = append(binary.BigEndian.AppendUint32(head, 60000), 8, 2, 0, 0, 0)
	head = binary.BigEndian.AppendUint32(head, crc32.ChecksumIEEE(head[12:]))
	_, err = photo.Make(head)
	assert.ErrorContains(t, err, "million pixels", "3,600 million of them are not decoded")
}
