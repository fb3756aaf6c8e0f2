// Package photo knows the files that photos of a wall come in: which may be stored, and how one is made that may. Only
// the server links it; a phone makes its own. Start at [Check] and [Make].
package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"

	"garlandry/app/job"
)

// Errors of a file that is not stored.
var (
	ErrKind     = errors.New("a photo is stored as JPEG or WebP")
	ErrTooLarge = fmt.Errorf("a photo may have up to %d kB", job.MostPhotoBytes/1000)
	ErrMetadata = errors.New("the photo carries more than its picture, such as where it was taken; " +
		"save it without metadata")
)

// Check returns the media type of a file, image/jpeg or image/webp. The error is [ErrTooLarge], [ErrKind] also for a
// file that is cut off, or [ErrMetadata] if anything but the picture and its colour profile is in it.
func Check(data []byte) (string, error) {
	switch {
	case len(data) > job.MostPhotoBytes:
		return "", ErrTooLarge
	case bytes.HasPrefix(data, []byte{0xff, soi}):
		return "image/jpeg", checkJPEG(data)
	case len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return "image/webp", checkWebP(data)
	}
	return "", ErrKind
}

// Second bytes of JPEG markers (ITU-T T.81, table B.1).
const (
	soi   = 0xd8 // start of image
	eoi   = 0xd9 // end of image
	sos   = 0xda // start of scan, which compressed data follows
	dqt   = 0xdb // quantization tables
	dri   = 0xdd // restart interval
	app0  = 0xe0 // JFIF
	app1  = 0xe1 // Exif, XMP
	app2  = 0xe2 // colour profile, further pictures
	app14 = 0xee // how colours are coded
)

// checkJPEG walks through all segments. Nothing may follow the end of the image.
func checkJPEG(data []byte) error {
	return segments(data, func(marker byte, body []byte) error {
		switch {
		case marker >= 0xc0 && marker <= 0xcf, marker == sos, marker == dqt, marker == dri, // the picture itself
			marker == app0, marker == app14,
			marker == app2 && bytes.HasPrefix(body, []byte("ICC_PROFILE\x00")):
			return nil
		}
		return ErrMetadata
	})
}

// segments calls visit for each segment of a JPEG file that has a length.
func segments(data []byte, visit func(marker byte, body []byte) error) error {
	scanned := false
	for at := 2; at+2 <= len(data); {
		if data[at] != 0xff {
			return ErrKind
		}
		marker := data[at+1]
		switch {
		case marker == 0xff: // a fill byte
			at++
			continue
		case marker == eoi:
			if at+2 < len(data) {
				return ErrMetadata
			}
			if !scanned {
				return ErrKind
			}
			return nil
		case at+4 > len(data):
			return ErrKind
		}
		length := int(binary.BigEndian.Uint16(data[at+2:]))
		if length < 2 || at+2+length > len(data) {
			return ErrKind
		}
		if err := visit(marker, data[at+4:at+2+length]); err != nil {
			return err
		}
		if at += 2 + length; marker == sos {
			scanned = true
			at = afterScan(data, at)
		}
	}
	return ErrKind // cut off
}

// afterScan returns where the compressed data ends: at the next marker that does not belong to it.
func afterScan(data []byte, at int) int {
	for ; at+1 < len(data); at++ {
		if data[at] == 0xff && data[at+1] != 0 && data[at+1] != 0xff && data[at+1]&0xf8 != 0xd0 {
			return at
		}
	}
	return len(data)
}

// checkWebP walks through all chunks (RFC 9649).
func checkWebP(data []byte) error {
	if int(binary.LittleEndian.Uint32(data[4:]))+8 != len(data) {
		return ErrKind
	}
	picture := false
	for at := 12; at < len(data); {
		if at+8 > len(data) {
			return ErrKind
		}
		length := int(binary.LittleEndian.Uint32(data[at+4:]))
		if length > len(data)-at-8 {
			return ErrKind
		}
		switch string(data[at : at+4]) {
		case "VP8 ", "VP8L":
			picture = true
		case "VP8X", "ALPH", "ICCP":
		default: // EXIF, XMP and what is not known
			return ErrMetadata
		}
		at += 8 + length + length%2
	}
	if !picture {
		return ErrKind
	}
	return nil
}
