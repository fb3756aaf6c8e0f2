package slim

import (
	"encoding/binary"
	"errors"
	"math"
)

const codeSection = 10

// The instructions that are looked at, of the core specification of WebAssembly 2.0, section 5.4.
const (
	opI64Const       = 0x42
	opFirstLoad      = 0x28
	opFirstStore     = 0x36
	opLastStore      = 0x3e
	opI32Add         = 0x6a
	opI64Add         = 0x7c
	opI32WrapI64     = 0xa7
	opI64ExtendI32S  = 0xac
	opI64ExtendI32U  = 0xad
	opPrefix         = 0xfc
	opMemoryCopy     = 10
	opMemoryFill     = 11
	opSaturatingLast = 7
)

var errCode = errors.New("the code section is damaged or holds an instruction that is not known")

// slimCode writes every function of a code section anew, see [slimBody].
func slimCode(section []byte) ([]byte, error) {
	functions, n := binary.Uvarint(section)
	if n <= 0 {
		return nil, errCode
	}
	out := binary.AppendUvarint(make([]byte, 0, len(section)), functions)
	for section = section[n:]; functions > 0; functions-- {
		size, n := binary.Uvarint(section)
		if n <= 0 || uint64(len(section)-n) < size {
			return nil, errCode
		}
		body, err := slimBody(section[n : n+int(size)])
		if err != nil {
			return nil, err
		}
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
		section = section[n+int(size):]
	}
	if len(section) > 0 {
		return nil, errCode
	}
	return out, nil
}

// rewriter is a function's code as it is written anew: where each instruction of it begins.
type rewriter struct {
	code   []byte
	starts []int
}

// slimBody says in fewer bytes what a function does with addresses. The compiler computes them in 64 bits and cuts them to
// 32: i64.extend, i64.const, i64.add, i32.wrap. The lower half of a sum depends on the lower halves alone, so that adding
// in 32 bits gives the same, and widening followed by cutting gives what was there. Only instructions that directly
// follow each other are looked at; a jump cannot lead between them, for it leads to the beginning or end of a block, which
// are instructions too.
func slimBody(body []byte) ([]byte, error) {
	at, err := locals(body)
	if err != nil {
		return nil, err
	}
	w := rewriter{code: append(make([]byte, 0, len(body)), body[:at]...)}
	for at < len(body) {
		n := instruction(body[at:])
		if n <= 0 {
			return nil, errCode
		}
		w.put(body[at : at+n])
		at += n
	}
	return w.code, nil
}

// put writes an instruction, or less where it can be said with the ones before it.
func (w *rewriter) put(instruction []byte) {
	switch op := instruction[0]; {
	case op == opI32WrapI64:
		if w.cut() {
			return
		}
	case op >= opFirstLoad && op < opFirstStore:
		instruction = w.nearer(instruction, 0)
	case op >= opFirstStore && op <= opLastStore:
		instruction = w.nearer(instruction, w.value())
	}
	w.add(instruction)
}

// cut says i32.wrap with the instructions before it, if it can.
func (w *rewriter) cut() bool {
	switch last := w.op(1); {
	case last == opI64ExtendI32U || last == opI64ExtendI32S:
		w.drop()
		return true
	case last == opI64Add && w.op(2) == opI64Const:
		value, _ := signed(w.last(2)[1:])
		if value < math.MinInt32 || value > math.MaxInt32 {
			return false
		}
		w.drop()
		w.drop()
		w.put([]byte{opI32WrapI64})
		w.add(appendSigned([]byte{opI32Const}, value))
		w.add([]byte{opI32Add})
		return true
	}
	return false
}

// nearer puts what is added to an address into the offset of the load or store that uses it, and takes the sum back. Between
// is how many instructions stand between them, of a store those that work out what is stored; below 0 nothing is done. The
// two ways differ only where the sum passes the end of a 32-bit memory, which no address of a Go program does: it points
// into an object, or is nil and was checked before.
func (w *rewriter) nearer(instruction []byte, between int) []byte {
	if between < 0 || w.op(between+1) != opI32Add || w.op(between+2) != opI32Const {
		return instruction
	}
	more, _ := signed(w.last(between + 2)[1:])
	align, n := binary.Uvarint(instruction[1:])
	offset, m := binary.Uvarint(instruction[1+max(n, 0):])
	if more < 0 || more > farthest || n <= 0 || m <= 0 || offset > farthest {
		return instruction
	}
	first := len(w.starts) - between
	from, to := len(w.code), w.starts[first-2]
	if between > 0 {
		from = w.starts[first]
	}
	w.code = append(w.code[:to], w.code[from:]...)
	for i := first; i < len(w.starts); i++ {
		w.starts[i-2] = w.starts[i] - from + to
	}
	w.starts = w.starts[:len(w.starts)-2]
	return binary.AppendUvarint(binary.AppendUvarint([]byte{instruction[0]}, align), offset+uint64(more))
}

// farthest is the largest addition that is moved.
const farthest = 1 << 20

// value is how many of the last instructions work out the one value on top of the stack, where they do nothing that could
// leave, for the address is on the stack already: -1 where they are others, or more than are looked at.
func (w *rewriter) value() int {
	wanted := 1
	for n := 1; n <= 40 && n <= len(w.starts); n++ {
		takes, known := operands(w.op(n))
		if !known {
			return -1
		}
		if wanted += takes - 1; wanted == 0 {
			return n
		}
	}
	return -1
}

// operands is how many values an instruction takes from the stack, of those that put one there and do nothing else.
func operands(op byte) (takes int, known bool) {
	switch {
	case op == 0x20, op == 0x23, op >= opI32Const && op <= 0x44: // local and global variables, constants
		return 0, true
	case op >= opFirstLoad && op < opFirstStore, op == 0x22, op == 0x45, op == 0x50, op >= 0x67 && op <= 0x69, op >= 0x79 && op <= 0x7b,
		op >= 0x8b && op <= 0x91, op >= 0x99 && op <= 0x9f, op >= opI32WrapI64 && op <= 0xc4: // loads, what is also kept in a variable, tests for zero, of one number
		return 1, true
	case op >= 0x46 && op <= 0xa6: // of two numbers
		return 2, true
	}
	if op == 0x1b { // one of two
		return 3, true
	}
	return 0, false
}

// op is the code of the instruction so many before the next one; 0, which stops a program, where there is none.
func (w *rewriter) op(back int) byte {
	if back > len(w.starts) {
		return 0
	}
	return w.code[w.starts[len(w.starts)-back]]
}

// last is the instruction so many before the next one, which must be there.
func (w *rewriter) last(back int) []byte {
	at, end := len(w.starts)-back, len(w.code)
	if back > 1 {
		end = w.starts[at+1]
	}
	return w.code[w.starts[at]:end]
}

func (w *rewriter) add(instruction []byte) {
	w.starts = append(w.starts, len(w.code))
	w.code = append(w.code, instruction...)
}

// drop takes the last instruction back.
func (w *rewriter) drop() {
	last := len(w.starts) - 1
	w.code, w.starts = w.code[:w.starts[last]], w.starts[:last]
}

// locals is where the instructions of a function begin, after its local variables.
func locals(body []byte) (int, error) {
	kinds, at := binary.Uvarint(body)
	if at <= 0 {
		return 0, errCode
	}
	for ; kinds > 0; kinds-- {
		_, n := binary.Uvarint(body[at:])
		if n <= 0 || at+n >= len(body) {
			return 0, errCode
		}
		at += n + 1
	}
	return at, nil
}

// instruction is how many bytes the first instruction takes; 0 for one that is not known or ends early.
func instruction(code []byte) int {
	numbers, bytes := 0, 0 // that follow the operation
	switch op := code[0]; {
	case op >= 0x02 && op <= 0x04, op == 0x0c, op == 0x0d, op == 0x10, op >= 0x20 && op <= 0x24, op == 0x3f, op == 0x40, op == opI32Const, op == opI64Const:
		numbers = 1
	case op == 0x11, op >= 0x28 && op <= 0x3e:
		numbers = 2
	case op == 0x0e:
		labels, n := binary.Uvarint(code[1:])
		if n <= 0 || labels > uint64(len(code)) {
			return 0
		}
		numbers = int(labels) + 2
	case op == 0x43:
		bytes = 4
	case op == 0x44:
		bytes = 8
	case op == opPrefix && len(code) > 1:
		switch sub := code[1]; {
		case sub <= opSaturatingLast:
			bytes = 1
		case sub == opMemoryCopy:
			bytes = 3
		case sub == opMemoryFill:
			bytes = 2
		default:
			return 0
		}
	case op <= 0x01, op == 0x05, op == 0x0b, op == 0x0f, op == 0x1a, op == 0x1b, op >= 0x45 && op <= 0xc4:
	default:
		return 0
	}
	at := 1 + bytes
	for ; numbers > 0; numbers-- {
		for at < len(code) && code[at]&0x80 != 0 {
			at++
		}
		at++
	}
	if at > len(code) {
		return 0
	}
	return at
}
