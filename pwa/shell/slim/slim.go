// Package slim takes out of a linked Go program for WebAssembly what a phone never reads: the tables that turn a program
// counter into a file, a line and an argument list for a printed traceback, the many small data segments that the linker
// writes, and what the compiler says at length of addresses. What the runtime itself reads stays: stack sizes, pointer maps, stack objects, wrappers and recovery.
//
// A slim program computes what the whole one computes; a traceback of it shows numbers instead of names and lines. Build
// the same source without this step to read one. The package knows the layout of one table version and refuses any other
// with ErrUnknownLayout, so that a new compiler gives a clear message instead of a broken core. Start at Core.
package slim

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// ErrUnknownLayout says that the program was linked by a compiler whose tables this package does not know. Nothing was
// changed; the program can be served as it is.
var ErrUnknownLayout = errors.New("the tables of this compiler version are not known")

// Report says how many bytes of tables were cleared, and how many data segments there were and are.
type Report struct {
	ClearedBytes                  int
	SegmentsBefore, SegmentsAfter int
}

var preamble = []byte{0, 'a', 's', 'm', 1, 0, 0, 0}

const dataSection = 11

// Core returns a program that does what the given one does, without its traceback tables and with shorter addresses; where
// its runtime finds functions by their number (see package bundle), also without the table of places. The given bytes are
// not changed. Errors: ErrUnknownLayout, or a damaged program.
func Core(program []byte, byNumber bool) ([]byte, Report, error) {
	var report Report
	if len(program) < len(preamble) || string(program[:8]) != string(preamble) {
		return nil, report, errors.New("slim: this is not a WebAssembly program")
	}
	out := append([]byte(nil), preamble...)
	for rest := program[8:]; len(rest) > 0; {
		id := rest[0]
		size, n := binary.Uvarint(rest[1:])
		if n <= 0 || uint64(len(rest)-1-n) < size {
			return nil, report, errors.New("slim: a section of the program ends early")
		}
		body := rest[1+n : 1+n+int(size)]
		var err error
		if id == codeSection {
			if body, err = slimCode(body); err != nil {
				return nil, report, fmt.Errorf("slim: %w", err)
			}
		}
		if id == dataSection {
			if body, report, err = slimData(body, byNumber); err != nil {
				return nil, report, fmt.Errorf("slim: %w", err)
			}
		}
		out = append(out, id)
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
		rest = rest[1+n+int(size):]
	}
	return out, report, nil
}

func slimData(body []byte, byNumber bool) ([]byte, Report, error) {
	memory, segments, err := readSegments(body)
	if err != nil {
		return nil, Report{}, err
	}
	cleared, err := clearTables(memory)
	if err != nil {
		return nil, Report{}, err
	}
	if byNumber {
		places, err := clearPlaces(memory)
		if err != nil {
			return nil, Report{}, err
		}
		cleared += places
	}
	body, after := writeSegments(memory)
	return body, Report{ClearedBytes: cleared, SegmentsBefore: segments, SegmentsAfter: after}, nil
}
