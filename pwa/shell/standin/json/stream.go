package json

import (
	"bytes"
	"errors"
	"io"
)

// RawMessage is JSON that is left as it is: written without its white space, read as it stands.
type RawMessage []byte

// MarshalJSON gives the message, null if there is none.
func (m RawMessage) MarshalJSON() ([]byte, error) {
	if m == nil {
		return []byte("null"), nil
	}
	return m, nil
}

// UnmarshalJSON keeps a copy of the bytes.
func (m *RawMessage) UnmarshalJSON(data []byte) error {
	if m == nil {
		return errors.New("json: no place for a raw message")
	}
	*m = append((*m)[:0], data...)
	return nil
}

// An Encoder writes values to a writer, each on a line.
type Encoder struct{ to io.Writer }

// NewEncoder gives an encoder that writes to a writer.
func NewEncoder(to io.Writer) *Encoder { return &Encoder{to} }

// Encode writes what [Marshal] gives and a line feed. Errors are those of Marshal or of the writer.
func (e *Encoder) Encode(value any) error {
	out, err := Marshal(value)
	if err != nil {
		return err
	}
	_, err = e.to.Write(append(out, '\n'))
	return err
}

// A Decoder reads values one after the other.
type Decoder struct {
	d      decoder
	failed error
}

// NewDecoder gives a decoder of what the reader holds. It takes no other kind of reader, since to read from just any
// would bring the ways to read files and pipes to the phone.
func NewDecoder(from *bytes.Reader) *Decoder {
	data := make([]byte, from.Len())
	_, _ = from.Read(data) // reads as much as it said it holds
	return &Decoder{d: decoder{scanner: scanner{data: data}}}
}

// DisallowUnknownFields makes fields that the target lacks an error.
func (d *Decoder) DisallowUnknownFields() { d.d.strict = true }

// Decode reads the next value, as [Unmarshal] does. It returns io.EOF behind the last one, and io.ErrUnexpectedEOF if that
// one is not whole.
func (d *Decoder) Decode(target any) error {
	if d.failed != nil {
		return d.failed
	}
	d.d.first = nil
	if d.d.next(); d.d.at == len(d.d.data) {
		return io.EOF
	}
	from := d.d.at
	if !d.d.skip() {
		d.failed = io.ErrUnexpectedEOF
		if d.d.at < len(d.d.data) {
			d.failed = d.d.fault()
		}
		return d.failed
	}
	end := d.d.at
	d.d.at = from
	err := d.d.into(target)
	d.d.at = end
	return err
}
