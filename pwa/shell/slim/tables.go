package slim

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// The layout of the function table of Go 1.20 and later, as package runtime declares it (pcHeader, functab and _func in
// symtab.go and runtime2.go); WebAssembly has eight-byte pointers and a program counter quantum of one.
var header = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

const (
	headerBytes   = 72 // header, number of functions and of files, one unused word, five offsets
	entryBytes    = 8  // of the index: where a function's code begins, where its record stands
	recordBytes   = 44 // of a record, before its two lists
	nameAt        = 4
	stackSizesAt  = 16
	filesAt       = 20
	linesAt       = 24
	tablesCountAt = 28
	unitAt        = 32
	startLineAt   = 36
	kindAt        = 40
	dataCountAt   = 43
)

// wrapper is the kind of a method that the compiler made (internal/abi FuncIDWrapper). Calling one on a nil pointer
// panics with the function's own name, so these names stay.
const wrapper = 23

// Which of a function's tables and data nothing but a traceback or a signal reads, by the numbers of package internal/abi
// (symtab.go). WebAssembly has no signals, so nothing asks where a goroutine may be stopped between calls.
var (
	unreadTables = map[int]bool{0: true, 3: true}          // unsafe points, live arguments
	unreadData   = map[int]bool{5: true, 6: true, 7: true} // argument list, live arguments, wrapped function of a trace
)

// knownTables and knownData are how many kinds internal/abi declares; more means a compiler that we do not know.
const (
	knownTables = 5
	knownData   = 8
	noData      = 0xffffffff
)

// functions is the function table within a program's memory.
type functions struct {
	memory                             []byte
	at                                 int // where the header stands
	count                              int
	names, units, files, tables, index int // offsets from the header
}

// clearTables zeroes what nothing in the program reads and returns how many bytes that were.
func clearTables(memory []byte) (cleared int, err error) {
	f, err := find(memory)
	if err != nil {
		return 0, err
	}
	used := make([]bool, f.index-f.names)
	for i := 0; i < f.count; i++ {
		record, err := f.record(i)
		if err != nil {
			return 0, err
		}
		if err := f.clearRecord(record, used); err != nil {
			return 0, err
		}
	}
	texts := memory[f.at+f.names : f.at+f.index]
	for i := range texts {
		if !used[i] && texts[i] != 0 {
			texts[i] = 0
			cleared++
		}
	}
	return cleared, nil
}

// find looks for the one header whose offsets make sense.
func find(memory []byte) (functions, error) {
	for from := 0; ; {
		i := bytes.Index(memory[from:], header)
		if i < 0 || from+i+headerBytes > len(memory) {
			return functions{}, ErrUnknownLayout
		}
		at := from + i
		word := func(n int) int { return int(binary.LittleEndian.Uint64(memory[at+8*n:])) }
		f := functions{memory: memory, at: at, count: word(1), names: word(4), units: word(5), files: word(6), tables: word(7), index: word(8)}
		if f.names == headerBytes && f.names <= f.units && f.units <= f.files && f.files <= f.tables && f.tables <= f.index &&
			f.count > 0 && f.count < 1<<24 && at+f.index+f.count*entryBytes < len(memory) {
			return f, nil
		}
		from = at + 1
	}
}

func (f functions) record(i int) ([]byte, error) {
	index := f.memory[f.at+f.index:]
	offset := int(binary.LittleEndian.Uint32(index[i*entryBytes+4:]))
	if offset+recordBytes > len(index) {
		return nil, fmt.Errorf("function %d stands outside of the program: %w", i, ErrUnknownLayout)
	}
	return index[offset:], nil
}

// clearRecord forgets what nothing reads of one function, and marks the tables that are still read.
func (f functions) clearRecord(record []byte, used []bool) error {
	little := binary.LittleEndian
	if record[kindAt] != wrapper {
		little.PutUint32(record[nameAt:], 0)
	} else if err := f.keepName(int(little.Uint32(record[nameAt:])), used); err != nil {
		return err
	}
	for _, at := range []int{filesAt, linesAt, unitAt, startLineAt} {
		little.PutUint32(record[at:], 0)
	}
	tables, data := int(little.Uint32(record[tablesCountAt:])), int(record[dataCountAt])
	if tables > knownTables || data > knownData || recordBytes+4*(tables+data) > len(record) {
		return ErrUnknownLayout
	}
	keep := []int{stackSizesAt}
	for t := 0; t < tables; t++ {
		at := recordBytes + 4*t
		if unreadTables[t] {
			little.PutUint32(record[at:], 0)
			continue
		}
		keep = append(keep, at)
	}
	for d := 0; d < data; d++ {
		if unreadData[d] {
			little.PutUint32(record[recordBytes+4*(tables+d):], noData)
		}
	}
	for _, at := range keep {
		if err := mark(f.memory[f.at+f.tables:f.at+f.index], used[f.tables-f.names:], int(little.Uint32(record[at:]))); err != nil {
			return err
		}
	}
	return nil
}

// keepName notes the bytes of a name, which ends with a zero, as used.
func (f functions) keepName(offset int, used []bool) error {
	names := f.memory[f.at+f.names : f.at+f.units]
	if offset < 0 || offset >= len(names) {
		return fmt.Errorf("a name stands outside of the table: %w", ErrUnknownLayout)
	}
	for i := offset; i < len(names) && names[i] != 0; i++ {
		used[i] = true
	}
	return nil
}

// mark follows one table, pairs of a signed change of value and a change of the program counter until a value change of
// zero that is not the first, and notes its bytes as used. Offset zero means that there is no table.
func mark(tables []byte, used []bool, offset int) error {
	if offset == 0 {
		return nil
	}
	at := offset
	for first := true; ; first = false {
		if at >= len(tables) {
			return fmt.Errorf("a table does not end: %w", ErrUnknownLayout)
		}
		value, n := binary.Uvarint(tables[at:])
		if n <= 0 {
			return fmt.Errorf("a table is damaged: %w", ErrUnknownLayout)
		}
		at += n
		if value == 0 && !first {
			break
		}
		_, n = binary.Uvarint(tables[at:])
		if n <= 0 {
			return fmt.Errorf("a table is damaged: %w", ErrUnknownLayout)
		}
		at += n
	}
	for i := offset; i < at; i++ {
		used[i] = true
	}
	return nil
}
