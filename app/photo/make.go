package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // one of the kinds that are read
	"sync"

	"garlandry/app/job"
)

// MostPixels is the largest picture that is read.
const MostPixels = 30_000_000

// Made is a photo as it may be stored.
type Made struct {
	JPEG              []byte
	WidthPX, HeightPX int
	Mean              string // red, green and blue on average, from 0 to 255: "120 99 80"
}

// making allows one photo at a time, since a large one takes a lot of memory.
var making sync.Mutex

// Make turns a JPEG or PNG file into a JPEG without metadata that is upright and at most [job.MostPhotoPX] and
// [job.MostPhotoBytes] large. The error says what is wrong with the file; it wraps [ErrKind] if it cannot be read.
func Make(file []byte) (Made, error) {
	making.Lock()
	defer making.Unlock()
	config, _, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil {
		return Made{}, fmt.Errorf("%w: %w", ErrKind, err)
	}
	if config.Width <= 0 || config.Height <= 0 || config.Width > MostPixels/config.Height {
		return Made{}, fmt.Errorf("a photo may have up to %d million pixels", MostPixels/1_000_000)
	}
	whole, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		return Made{}, fmt.Errorf("%w: %w", ErrKind, err)
	}
	for longest := job.MostPhotoPX; ; longest /= 2 {
		small := upright(shrunk(whole, longest), orientation(file))
		for _, quality := range []int{85, 75, 65, 50, 35} {
			var out bytes.Buffer
			if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: quality}); err != nil {
				return Made{}, fmt.Errorf("write photo: %w", err)
			}
			if out.Len() <= job.MostPhotoBytes {
				size := small.Bounds().Size()
				return Made{out.Bytes(), size.X, size.Y, mean(small)}, nil
			}
		}
	}
}

// shrunk returns the picture with each pixel the mean of those it stands for. It is never larger than before.
func shrunk(from image.Image, longest int) *image.RGBA {
	b := from.Bounds()
	wide, high := b.Dx(), b.Dy()
	if most := max(wide, high); most > longest {
		wide, high = max(1, wide*longest/most), max(1, high*longest/most)
	}
	to := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		top, bottom := b.Min.Y+y*b.Dy()/high, b.Min.Y+(y+1)*b.Dy()/high
		for x := range wide {
			left, right := b.Min.X+x*b.Dx()/wide, b.Min.X+(x+1)*b.Dx()/wide
			to.SetRGBA(x, y, meanOf(from, image.Rect(left, top, right, bottom)))
		}
	}
	return to
}

// meanOf returns the mean colour of a part of a picture, over white.
func meanOf(from image.Image, part image.Rectangle) color.RGBA {
	var sum [3]uint64
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			r, g, b, a := from.At(x, y).RGBA()
			for i, c := range [3]uint32{r, g, b} {
				sum[i] += uint64(c + 0xffff - a)
			}
		}
	}
	n := uint64(part.Dx()*part.Dy()) * 257
	return color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), 255}
}

func mean(of image.Image) string {
	c := meanOf(of, of.Bounds())
	return fmt.Sprintf("%d %d %d", c.R, c.G, c.B)
}

// upright turns a picture as its orientation from 1 to 8 says (Exif 2.32, tag 0x0112).
func upright(from *image.RGBA, orientation int) *image.RGBA {
	if orientation < 2 || orientation > 8 {
		return from
	}
	wide, high := from.Rect.Dx(), from.Rect.Dy()
	to := image.NewRGBA(image.Rect(0, 0, wide, high))
	if orientation > 4 {
		to = image.NewRGBA(image.Rect(0, 0, high, wide))
	}
	for y := range to.Rect.Dy() {
		for x := range to.Rect.Dx() {
			at := image.Pt(x, y)
			if orientation > 4 {
				at = image.Pt(y, x)
			}
			switch orientation {
			case 2, 3, 7, 8:
				at.X = wide - 1 - at.X
			}
			switch orientation {
			case 3, 4, 6, 7:
				at.Y = high - 1 - at.Y
			}
			to.SetRGBA(x, y, from.RGBAAt(at.X, at.Y))
		}
	}
	return to
}

// orientation returns the orientation that a JPEG file names, 1 if it names none.
func orientation(file []byte) int {
	found := 1
	if !bytes.HasPrefix(file, []byte{0xff, soi}) {
		return found
	}
	_ = segments(file, func(marker byte, body []byte) error {
		if tiff, is := bytes.CutPrefix(body, []byte("Exif\x00\x00")); is && marker == app1 {
			found = orientationIn(tiff)
		}
		return nil
	})
	return found
}

// orientationIn reads the orientation from the first directory of a TIFF block (TIFF 6.0, section 2).
func orientationIn(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	start := int(order.Uint32(tiff[4:]))
	if start < 8 || start+2 > len(tiff) {
		return 1
	}
	for i := range int(order.Uint16(tiff[start:])) {
		entry := start + 2 + 12*i
		if entry+12 > len(tiff) {
			break
		}
		if order.Uint16(tiff[entry:]) == 0x0112 {
			return int(order.Uint16(tiff[entry+8:]))
		}
	}
	return 1
}
