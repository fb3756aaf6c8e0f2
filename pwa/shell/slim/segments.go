package slim

import (
	"encoding/binary"
	"errors"
)

var errData = errors.New("the data section is damaged")

// maxMemory bounds what a damaged offset can make us allocate.
const maxMemory = 1 << 28

// readSegments lays the data segments out as the memory they describe and counts them.
func readSegments(body []byte) (memory []byte, count int, err error) {
	segments, n := binary.Uvarint(body)
	if n <= 0 {
		return nil, 0, errData
	}
	body = body[n:]
	for ; segments > 0; segments-- {
		if len(body) < 2 || body[0] != 0 || body[1] != opI32Const {
			return nil, 0, errData
		}
		offset, n := signed(body[2:])
		if n <= 0 || offset < 0 || len(body) < 3+n || body[2+n] != opEnd {
			return nil, 0, errData
		}
		body = body[3+n:]
		size, n := binary.Uvarint(body)
		if n <= 0 || uint64(len(body)-n) < size || uint64(offset)+size > maxMemory {
			return nil, 0, errData
		}
		end := int(offset) + int(size)
		if end > len(memory) {
			memory = append(memory, make([]byte, end-len(memory))...)
		}
		copy(memory[offset:end], body[n:])
		body = body[n+int(size):]
		count++
	}
	return memory, count, nil
}

const (
	opI32Const = 0x41
	opEnd      = 0x0b
	// gap is the run of zeros that is worth a new segment: zeros compress to almost nothing, a header does not.
	gap = 4096
)

// writeSegments writes memory as segments that leave out the long runs of zeros.
func writeSegments(memory []byte) (body []byte, count int) {
	var segments []byte
	for start := 0; start < len(memory); {
		if memory[start] == 0 {
			start++
			continue
		}
		end, last := start, start
		for ; end < len(memory) && end-last <= gap; end++ {
			if memory[end] != 0 {
				last = end
			}
		}
		segments = append(segments, 0, opI32Const)
		segments = appendSigned(segments, int64(start))
		segments = append(segments, opEnd)
		segments = binary.AppendUvarint(segments, uint64(last+1-start))
		segments = append(segments, memory[start:last+1]...)
		count++
		start = end
	}
	return append(binary.AppendUvarint(nil, uint64(count)), segments...), count
}

// signed reads a signed LEB128 number and how many bytes it took, 0 when it does not end.
func signed(b []byte) (value int64, n int) {
	for shift := uint(0); n < len(b) && shift < 64; shift += 7 {
		c := b[n]
		n++
		value |= int64(c&0x7f) << shift
		if c&0x80 == 0 {
			if c&0x40 != 0 && shift+7 < 64 {
				value |= -1 << (shift + 7)
			}
			return value, n
		}
	}
	return 0, 0
}

func appendSigned(b []byte, value int64) []byte {
	for {
		c := byte(value & 0x7f)
		value >>= 7
		if (value == 0 && c&0x40 == 0) || (value == -1 && c&0x40 != 0) {
			return append(b, c)
		}
		b = append(b, c|0x80)
	}
}
