package slim

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Instructions by the binary format of the core specification of WebAssembly 2.0, section 5.4.
var (
	getX     = []byte{0x20, 0}                            // local.get 0
	extend   = []byte{0xad}                               // i64.extend_i32_u
	eight    = []byte{0x42, 8}                            // i64.const 8
	minus    = []byte{0x42, 0x78}                         // i64.const -8
	huge     = []byte{0x42, 0x80, 0x80, 0x80, 0x80, 0x10} // i64.const 2^32
	add64    = []byte{0x7c}                               // i64.add
	wrap     = []byte{0xa7}                               // i32.wrap_i64
	load     = []byte{0x29, 3, 16}                        // i64.load align=8 offset=16
	store    = []byte{0x37, 3, 16}                        // i64.store align=8 offset=16
	five     = []byte{0x42, 5}                            // i64.const 5
	call     = []byte{0x10, 3}                            // call 3
	tee      = []byte{0x22, 1}                            // local.tee 1
	add32    = []byte{0x6a}                               // i32.add
	eight32  = []byte{0x41, 8}                            // i32.const 8
	minus32  = []byte{0x41, 0x78}                         // i32.const -8
	block    = []byte{0x02, 0x40}                         // block
	end      = []byte{0x0b}                               // end
	table    = []byte{0x0e, 2, 0, 1, 0}                   // br_table 0 1 0
	noLocals = []byte{0}                                  // of a function
)

func of(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

func TestAddressesAreSaidShorter(t *testing.T) {
	for _, row := range []struct {
		name       string
		body, want []byte
	}{
		{"a sum is made in 32 bits", of(getX, extend, eight, add64, wrap, end), of(getX, eight32, add32, end)},
		{"so is a difference", of(getX, extend, minus, add64, wrap, end), of(getX, minus32, add32, end)},
		{"of what was 64 bits wide only the sum", of(getX, eight, add64, wrap, end), of(getX, wrap, eight32, add32, end)},
		{"a constant that does not fit stays", of(getX, extend, huge, add64, wrap, end), of(getX, extend, huge, add64, wrap, end)},
		{"a sum that stays wide stays", of(getX, extend, eight, add64, end), of(getX, extend, eight, add64, end)},
		{"widened and cut again", of(getX, extend, wrap, end), of(getX, end)},
		{"a load takes the sum", of(getX, extend, eight, add64, wrap, load, end), of(getX, []byte{0x29, 3, 24}, end)},
		{"but no difference", of(getX, extend, minus, add64, wrap, load, end), of(getX, minus32, add32, load, end)},
		{"a store of a constant takes the sum", of(getX, extend, eight, add64, wrap, five, store, end), of(getX, five, []byte{0x37, 3, 24}, end)},
		{"so does a store of something worked out", of(getX, extend, eight, add64, wrap, getX, load, five, add64, store, end), of(getX, getX, load, five, add64, []byte{0x37, 3, 24}, end)},
		{"but not one of what a call gives", of(getX, extend, eight, add64, wrap, call, store, end), of(getX, eight32, add32, call, store, end)},
		{"one of what is also kept does", of(getX, extend, eight, add64, wrap, five, tee, store, end), of(getX, five, tee, []byte{0x37, 3, 24}, end)},
		{"nor does the address of what is stored", of(getX, getX, extend, eight, add64, wrap, load, store, end), of(getX, getX, []byte{0x29, 3, 24}, store, end)},
		{"nothing is drawn together over the begin of a block", of(getX, extend, eight, add64, block, wrap, end, end), of(getX, extend, eight, add64, block, wrap, end, end)},
		{"nor over its end", of(block, getX, extend, end, wrap, end), of(block, getX, extend, end, wrap, end)},
		{"a table of jumps", of(getX, table, getX, extend, wrap, end), of(getX, table, getX, end)},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := slimBody(of(noLocals, row.body))
			require.NoError(t, err)
			assert.Equal(t, of(noLocals, row.want), got)
			again, err := slimBody(got)
			require.NoError(t, err)
			assert.Equal(t, got, again)
		})
	}
	_, err := slimBody(of(noLocals, []byte{0xfd, 0}))
	assert.ErrorIs(t, err, errCode, "an instruction that is not known")
	_, err = slimBody(of(noLocals, []byte{0x42, 0x80}))
	assert.ErrorIs(t, err, errCode, "one that ends early")
}

func FuzzCodeNeverPanics(f *testing.F) {
	f.Add(of(noLocals, getX, extend, eight, add64, wrap, five, store, end))
	f.Add(of([]byte{1, 2, 0x7e}, getX, table, load, end))
	f.Fuzz(func(t *testing.T, body []byte) {
		short, err := slimBody(body)
		if err != nil {
			return
		}
		assert.LessOrEqual(t, len(short), len(body)+8)
		_, err = slimBody(short)
		assert.NoError(t, err)
	})
}
