package slim

import "encoding/binary"

// The linker's record of the program (moduledata in package runtime's symtab.go) begins with the address of the function
// table's header and six slices: names, units, files, tables, and twice the index. Then come the table of places, which
// says for every stretch of the program counter where in the index to begin looking, and the first and last counter.
const (
	placesAt     = 8 + 6*24
	moduleBytes  = placesAt + 3*8
	stretch      = 4096
	stretchBytes = 4 + 16
)

// clearPlaces zeroes the table of places and returns how many bytes that were. A program whose runtime reads it still finds
// every function, from the first one on, which takes long.
func clearPlaces(memory []byte) (cleared int, err error) {
	f, err := find(memory)
	if err != nil {
		return 0, err
	}
	parts := []int{0, f.names, f.units, f.files, f.tables, f.index, f.index}
	for at := 0; at+moduleBytes <= len(memory); at += 8 {
		word := func(offset int) int { return int(binary.LittleEndian.Uint64(memory[at+offset:])) }
		known := word(0) == f.at
		for i := 1; known && i < len(parts); i++ {
			known = word(8+24*(i-1)) == f.at+parts[i]
		}
		if !known {
			continue
		}
		from, counters := word(placesAt), word(placesAt+16)-word(placesAt+8)
		if from <= 0 || from > len(memory) || counters <= 0 || counters/stretch > (len(memory)-from)/stretchBytes {
			return 0, ErrUnknownLayout
		}
		places := memory[from : from+counters/stretch*stretchBytes]
		for i := range places {
			if places[i] != 0 {
				places[i] = 0
				cleared++
			}
		}
		return cleared, nil
	}
	return 0, ErrUnknownLayout
}
