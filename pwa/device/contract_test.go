package device_test

import (
	"errors"
	"fmt"
	"runtime"
	gosync "sync"
	"sync/atomic"
	"testing"

	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// storage is one phone's storage under the contract: how a tab opens it, and how it can fail.
type storage struct {
	open   func() device.Disk
	breaks func(d device.Disk, how death, meanwhile func()) // the next commit of d
	old    func(generation string, rows ...device.Entry)    // writes as a build without tokens did
	vanish func()                                           // deletes it while tabs have it open
}

var everything = device.Span{First: "", Last: "~"}

func batch(token, expected, next string, puts ...string) device.Batch {
	b := device.Batch{Token: token, Expected: expected, Next: next}
	for _, key := range puts {
		b.Put = append(b.Put, device.Entry{Key: key, Text: "by " + token})
	}
	return b
}

func commits(t *testing.T, d device.Disk, b device.Batch) bool {
	t.Helper()
	done, err := d.Commit(b)
	require.NoError(t, err)
	return done
}

// holds returns what is stored, without the disk's own rows, and the generation.
func holds(t *testing.T, d device.Disk) (rows map[string]string, generation string) {
	t.Helper()
	rows = map[string]string{}
	found, err := d.Read(device.Span{First: "a", Last: "c"}, device.Span{First: "x", Last: "~"})
	require.NoError(t, err)
	for _, e := range found.Entries {
		rows[e.Key] = e.Text
	}
	return rows, found.Generation
}

// contract tests what every [device.Disk] must do.
func contract(t *testing.T, fresh func(t *testing.T) storage) {
	for _, row := range []struct {
		name string
		keep func(*testing.T, storage)
	}{
		{"an empty storage has no generation and no entries", keepsNothing},
		{"spans are read in order, without their end", keepsOrder},
		{"texts are stored unchanged", keepsTexts},
		{"spans are emptied, then keys deleted, then entries put", keepsSequence},
		{"a commit that expects another generation writes nothing", refusesStale},
		{"only one of two tabs on one generation writes", oneOfTwoWrites},
		{"the same next generation is not the same commit", countersMeanNothing},
		{"a repeated commit writes nothing more", tokensMeanAll},
		{"a dead connection is reopened", healsDeath},
		{"a retry does not overwrite what other tabs wrote", healsBesideOthers},
		{"a full storage writes nothing and reports it", saysNoRoom},
		{"a storage of the earlier build still works", goesOnFromOld},
		{"a storage deleted under its tabs is empty", survivesDeletion},
		{"a read is consistent", readsOneMoment},
		{"turns do not overlap", turnsDoNotOverlap},
	} {
		t.Run(row.name, func(t *testing.T) { row.keep(t, fresh(t)) })
	}
}

func keepsNothing(t *testing.T, s storage) {
	found, err := s.open().Read()
	require.NoError(t, err)
	assert.Equal(t, device.Snapshot{}, found)
	found, err = s.open().Read(everything, everything)
	require.NoError(t, err)
	assert.Equal(t, device.Snapshot{}, found)
}

func keepsOrder(t *testing.T, s storage) {
	d := s.open()
	require.True(t, commits(t, d, batch("t", "", "1", "b/2", "a/2", "a0", "a/10", "a/1", "a", "b/1")))
	var keys []string
	found, err := s.open().
		Read(device.Span{First: "b/", Last: "b/2"}, device.Span{First: "z", Last: "zz"}, device.Span{First: "a/1",
			Last: "a0"})
	require.NoError(t, err)
	for _, e := range found.Entries {
		keys = append(keys, e.Key)
	}
	assert.Equal(t, []string{"b/1", "a/1", "a/10", "a/2"}, keys)
	assert.Equal(t, "1", found.Generation)
}

func keepsTexts(t *testing.T, s storage) {
	texts := map[string]string{"a/1": "", "a/2": "ü \u2028 \x00 \U0001F388", "b/long": fmt.Sprint(make([]int, 50000))}
	b := device.Batch{Token: "t", Next: "1"}
	for key, text := range texts {
		b.Put = append(b.Put, device.Entry{Key: key, Text: text})
	}
	require.True(t, commits(t, s.open(), b))
	rows, _ := holds(t, s.open())
	assert.Equal(t, texts, rows)
}

func keepsSequence(t *testing.T, s storage) {
	d := s.open()
	require.True(t, commits(t, d, batch("one", "", "1", "a/1", "a/2", "b/1", "b/2")))
	b := batch("two", "1", "2", "a/2", "b/1")
	b.Empty, b.Delete = []device.Span{{First: "a/", Last: "a0"}}, []string{"b/1", "b/none"}
	require.True(t, commits(t, d, b))
	rows, generation := holds(t, s.open())
	assert.Equal(t, map[string]string{"a/2": "by two", "b/1": "by two", "b/2": "by one"}, rows)
	assert.Equal(t, "2", generation)
}

func refusesStale(t *testing.T, s storage) {
	d := s.open()
	require.True(t, commits(t, d, batch("one", "", "5", "a/1")))
	for i, expected := range []string{"", "4", "6", "50"} {
		b := batch(fmt.Sprint("wrong", i), expected, "7", "b/1")
		b.Empty, b.Delete = []device.Span{{First: "a", Last: "b"}}, []string{"a/1"}
		assert.False(t, commits(t, d, b), "expects %q", expected)
	}
	rows, generation := holds(t, s.open())
	assert.Equal(t, map[string]string{"a/1": "by one"}, rows)
	assert.Equal(t, "5", generation)
}

func oneOfTwoWrites(t *testing.T, s storage) {
	tabs, generation := []device.Disk{s.open(), s.open(), s.open()}, ""
	for round := range 20 {
		next := fmt.Sprint(round + 1)
		var done [3]bool
		var errs [3]error
		var all gosync.WaitGroup
		for i, tab := range tabs {
			all.Go(func() {
				done[i], errs[i] = tab.Commit(batch(fmt.Sprint(round, "/", i), generation, next, "a/last", fmt.Sprint("b/", round)))
			})
		}
		all.Wait()
		require.NoError(t, errors.Join(errs[:]...))
		winner := ""
		for i := range tabs {
			if done[i] {
				require.Empty(t, winner, "round %d: two tabs were told that they have written", round)
				winner = fmt.Sprint("by ", round, "/", i)
			}
		}
		require.NotEmpty(t, winner, "round %d", round)
		rows, now := holds(t, tabs[round%len(tabs)])
		require.Equal(t, []string{winner, winner, next}, []string{rows["a/last"], rows[fmt.Sprint("b/", round)], now})
		generation = now
	}
}

func countersMeanNothing(t *testing.T, s storage) {
	one, two := s.open(), s.open()
	require.True(t, commits(t, one, batch("zero", "", "17", "a/1")))
	require.True(t, commits(t, one, batch("one", "17", "18", "b/one")))
	assert.False(t, commits(t, two, batch("two", "17", "18", "b/two")), "the other tab's 18 is not mine")
	rows, _ := holds(t, two)
	assert.Equal(t, map[string]string{"a/1": "by zero", "b/one": "by one"}, rows)
}

func tokensMeanAll(t *testing.T, s storage) {
	d := s.open()
	b := batch("one", "", "1", "a/1")
	require.True(t, commits(t, d, b))
	b.Put = append(b.Put, device.Entry{Key: "a/2", Text: "never"})
	assert.True(t, commits(t, d, b))
	rows, generation := holds(t, d)
	assert.Equal(t, map[string]string{"a/1": "by one"}, rows)
	assert.Equal(t, "1", generation)
}

var deaths = []struct {
	name string
	how  death
}{{"before", before}, {"halfway", halfway}, {"after", after}}

func healsDeath(t *testing.T, s storage) {
	d, generation, want := s.open(), "", map[string]string{}
	for _, x := range deaths {
		name, how := x.name, x.how
		times := 0
		s.breaks(d, how, func() { times++ })
		assert.True(t, commits(t, d, batch(name, generation, "after "+name, "a/"+name, "b/last")), name)
		assert.Equal(t, 1, times, "it must have died %s", name)
		want["a/"+name], want["b/last"] = "by "+name, "by "+name
		var rows map[string]string
		rows, generation = holds(t, d)
		assert.Equal(t, want, rows, name)
		assert.Equal(t, "after "+name, generation)
	}
}

func healsBesideOthers(t *testing.T, s storage) {
	one, two, generation := s.open(), s.open(), ""
	for _, x := range deaths {
		name, how := x.name, x.how
		s.breaks(one, how, func() {
			_, found := holds(t, two)
			require.True(t, commits(t, two, batch("other "+name, found, "next", "b/"+name)))
		})
		assert.False(t, commits(t, one, batch(name, generation, "next", "a/"+name)),
			"%s: it must look at what the other wrote", name)
		rows, _ := holds(t, one)
		assert.Equal(t, how == after, rows["a/"+name] != "", name)
		assert.Equal(t, "by other "+name, rows["b/"+name])
		require.True(t, commits(t, one, batch("on "+name, "next", "on "+name)))
		generation = "on " + name
	}
}

func saysNoRoom(t *testing.T, s storage) {
	d := s.open()
	require.True(t, commits(t, d, batch("one", "", "1", "a/1")))
	s.breaks(d, noRoom, nil)
	b := batch("two", "1", "2", "a/2", "a/3")
	b.Delete = []string{"a/1"}
	done, err := d.Commit(b)
	require.Error(t, err)
	assert.False(t, done)
	assert.Regexp(t, "(?i)no room|quota", err.Error(), "the error must name the reason")
	rows, generation := holds(t, d)
	assert.Equal(t, map[string]string{"a/1": "by one"}, rows)
	assert.Equal(t, "1", generation)
	assert.True(t, commits(t, d, b), "there is room again")
}

func goesOnFromOld(t *testing.T, s storage) {
	s.old("17", device.Entry{Key: "a/1", Text: "old"})
	one, two := s.open(), s.open()
	rows, generation := holds(t, one)
	assert.Equal(t, map[string]string{"a/1": "old"}, rows)
	require.Equal(t, "17", generation)
	assert.False(t, commits(t, two, batch("wrong", "16", "17", "b/2")), "another commit wrote that generation")
	require.True(t, commits(t, one, batch("one", "17", "18", "b/1")))
	assert.False(t, commits(t, two, batch("two", "17", "18", "b/2")))
	s.old("19", device.Entry{Key: "a/2", Text: "by a tab of the old build"})
	assert.False(t, commits(t, one, batch("three", "18", "19", "b/3")), "the old build leaves the last token unchanged")
	_, generation = holds(t, one)
	require.Equal(t, "19", generation)
	assert.True(t, commits(t, one, batch("four", "19", "20", "b/3")))
}

func survivesDeletion(t *testing.T, s storage) {
	one, two := s.open(), s.open()
	require.True(t, commits(t, one, batch("one", "", "1", "a/1")))
	_, _ = holds(t, two)
	s.vanish()
	for _, d := range []device.Disk{one, two} {
		rows, generation := holds(t, d)
		assert.Empty(t, rows)
		assert.Empty(t, generation)
		assert.False(t, commits(t, d, batch("late", "1", "2", "a/2")), "the generation it expects is gone")
	}
	assert.True(t, commits(t, two, batch("anew", "", "1", "b/1")))
	rows, _ := holds(t, one)
	assert.Equal(t, map[string]string{"b/1": "by anew"}, rows)
}

func readsOneMoment(t *testing.T, s storage) {
	writer, reader := s.open(), s.open()
	const rounds = 100
	written := make(chan error, 1)
	go func() {
		generation := ""
		for i := range rounds {
			next := fmt.Sprint(i + 1)
			done, err := writer.Commit(batch(next, generation, next, "a/1", "b/1", "x/1"))
			if err != nil || !done {
				written <- fmt.Errorf("round %d: %w", i, errors.Join(err, errKilled))
				return
			}
			generation = next
		}
		written <- nil
	}()
	spans := []device.Span{{First: "x", Last: "y"}, {First: "b", Last: "c"}, {First: "a", Last: "b"}}
	for generation := ""; generation != fmt.Sprint(rounds); {
		runtime.Gosched() // there may be one thread only
		found, err := reader.Read(spans...)
		require.NoError(t, err)
		generation = found.Generation
		for _, e := range found.Entries {
			require.Equal(t, "by "+generation, e.Text, e.Key)
		}
		select {
		case err := <-written:
			require.NoError(t, err)
			written <- nil
		default:
		}
	}
}

func turnsDoNotOverlap(t *testing.T, s storage) {
	var inside, times atomic.Int64
	var all gosync.WaitGroup
	wrong := errors.New("what the work says")
	errs := make([]error, 3)
	for i := range errs {
		d := s.open()
		all.Go(func() {
			for range 20 {
				errs[i] = d.Alone(func() error {
					if inside.Add(1) != 1 {
						return errKilled
					}
					_, err := d.Read(everything)
					times.Add(1)
					inside.Add(-1)
					return errors.Join(err, wrong)
				})
				if !errors.Is(errs[i], wrong) {
					return
				}
			}
		})
	}
	all.Wait()
	for _, err := range errs {
		require.ErrorIs(t, err, wrong)
	}
	assert.EqualValues(t, 60, times.Load())
}

// TestContractInMemory checks that the in-memory disk of these tests follows the contract.
func TestContractInMemory(t *testing.T) {
	contract(t, func(*testing.T) storage { return inMemory() })
}
