//go:build !js

package device_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	gosync "sync"
	"testing"
	"time"

	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// node runs static/js/disk.js in a Node process, over an IndexedDB in memory.
type node struct {
	t     testing.TB
	mu    gosync.Mutex
	asked int
	lines io.Writer
	wait  map[int]chan nodeAnswer
	tabs  map[int]*nodeDisk
}

type nodeAnswer struct {
	ID    int             `json:"id"`
	Value json.RawMessage `json:"value"`
	Error string          `json:"error"`
	Died  *int            `json:"died"`
}

var errNodeEnded = errors.New("the Node process has ended")

// needsNode returns the paths of Node and an IndexedDB for it. It skips the test if either is missing.
func needsNode(t testing.TB) (program, database string) {
	t.Helper()
	const how = "npm install --prefix DIR fake-indexeddb@6.2.8, then FAKE_INDEXEDDB=DIR/node_modules/fake-indexeddb go " +
		"test ./pwa/device"
	if database = os.Getenv("FAKE_INDEXEDDB"); database == "" {
		t.Skip("static/js/disk.js was not tried in Node, since FAKE_INDEXEDDB names no IndexedDB for it: " + how)
	}
	program, err := exec.LookPath("node")
	if err != nil {
		t.Skip("static/js/disk.js was not tried in Node, since there is no Node here: install nodejs, then " + how)
	}
	return program, database
}

func startNode(t testing.TB) *node {
	t.Helper()
	program, database := needsNode(t)
	command := exec.Command(program, "testdata/host.cjs", "../../static/js/disk.js", database)
	command.Stderr = os.Stderr
	in, err := command.StdinPipe()
	require.NoError(t, err)
	out, err := command.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, command.Start())
	n := &node{t: t, lines: in, wait: map[int]chan nodeAnswer{}, tabs: map[int]*nodeDisk{}}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		n.listen(out)
	}()
	t.Cleanup(func() {
		_ = in.Close() // this ends the process
		<-ended
		_ = command.Wait() // the exit status does not matter here
	})
	return n
}

func (n *node) listen(out io.Reader) {
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 1<<26)
	for lines.Scan() {
		var a nodeAnswer
		if err := json.Unmarshal(lines.Bytes(), &a); err != nil {
			break
		}
		if a.Died != nil {
			n.mu.Lock()
			n.tabs[*a.Died].died <- struct{}{}
			n.mu.Unlock()
			continue
		}
		n.mu.Lock()
		n.wait[a.ID] <- a
		delete(n.wait, a.ID)
		n.mu.Unlock()
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	for _, waits := range n.wait {
		close(waits)
	}
	n.wait = nil
}

// ask sends one request and decodes its answer into a value, which may be nil.
func (n *node) ask(op string, question map[string]any, value any) error {
	answer := make(chan nodeAnswer, 1)
	n.mu.Lock()
	if n.wait == nil {
		n.mu.Unlock()
		return errNodeEnded
	}
	n.asked++
	n.wait[n.asked] = answer
	line := map[string]any{"id": n.asked, "op": op}
	for name, v := range question {
		line[name] = v
	}
	data, err := json.Marshal(line)
	if err == nil {
		_, err = n.lines.Write(append(data, '\n'))
	}
	n.mu.Unlock()
	if err != nil {
		return err
	}
	var a nodeAnswer
	there := true
	select {
	case a, there = <-answer:
	case <-time.After(patience):
		return fmt.Errorf("no answer to %s", op)
	}
	switch {
	case !there:
		return errNodeEnded
	case a.Error != "":
		return errors.New(a.Error)
	case value == nil:
		return nil
	}
	return json.Unmarshal(a.Value, value)
}

func (n *node) must(op string, question map[string]any, value any) {
	n.t.Helper()
	require.NoError(n.t, n.ask(op, question, value), op)
}

// open opens the storage for another tab.
func (n *node) open() *nodeDisk {
	d := &nodeDisk{node: n, died: make(chan struct{}, 1)}
	n.must("open", nil, &d.disk)
	n.mu.Lock()
	defer n.mu.Unlock()
	n.tabs[d.disk] = d
	return d
}

// nodeDisk is one tab's connection to the storage, as the core sees it.
type nodeDisk struct {
	*node
	disk      int
	died      chan struct{} // receives when the connection has died
	meanwhile func()        // runs before the death is noticed
}

func (d *nodeDisk) Read(spans ...device.Span) (device.Snapshot, error) {
	var found struct {
		Generation   string
		Keys, Values []string
	}
	if err := d.ask("read", map[string]any{"disk": d.disk, "spans": pairsOf(spans)}, &found); err != nil {
		return device.Snapshot{}, err
	}
	snapshot := device.Snapshot{Generation: found.Generation}
	for i, key := range found.Keys {
		snapshot.Entries = append(snapshot.Entries, device.Entry{Key: key, Text: found.Values[i]})
	}
	return snapshot, nil
}

func (d *nodeDisk) Commit(b device.Batch) (done bool, err error) {
	puts := make([][2]string, len(b.Put))
	for i, e := range b.Put {
		puts[i] = [2]string{e.Key, e.Text}
	}
	question := map[string]any{"disk": d.disk, "expected": b.Expected, "next": b.Next, "token": b.Token,
		"spans": pairsOf(b.Empty), "deletes": append([]string{}, b.Delete...), "puts": puts}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		err = d.ask("commit", question, &done)
	}()
	select {
	case <-d.died:
		d.mu.Lock()
		meanwhile := d.meanwhile
		d.mu.Unlock()
		if meanwhile != nil {
			meanwhile()
		}
		if goOnErr := d.ask("goOn", map[string]any{"disk": d.disk}, nil); goOnErr != nil {
			return false, goOnErr
		}
		<-ended
	case <-ended:
	}
	return done, err
}

// breaks kills the connection during the next commit.
func (d *nodeDisk) breaks(how death, meanwhile func()) {
	d.mu.Lock()
	d.meanwhile = meanwhile
	d.mu.Unlock()
	names := map[death]string{before: "before", halfway: "halfway", after: "after", noRoom: "noRoom"}
	d.must("fault", map[string]any{"disk": d.disk, "how": names[how]}, nil)
}

func (d *nodeDisk) Alone(work func() error) error {
	if err := d.ask("turn", map[string]any{"disk": d.disk}, nil); err != nil {
		return err
	}
	err := work()
	return errors.Join(err, d.ask("end", map[string]any{"disk": d.disk}, nil))
}

func pairsOf(spans []device.Span) [][2]string {
	pairs := make([][2]string, len(spans))
	for i, s := range spans {
		pairs[i] = [2]string{s.First, s.Last}
	}
	return pairs
}

// inNode returns the phone's real disk as a storage for the contract.
func inNode(t testing.TB) storage {
	n := startNode(t)
	return storage{
		open:   func() device.Disk { return n.open() },
		breaks: func(of device.Disk, how death, meanwhile func()) { of.(*nodeDisk).breaks(how, meanwhile) },
		old: func(generation string, rows ...device.Entry) {
			written := [][2]string{{"generation", generation}}
			for _, e := range rows {
				written = append(written, [2]string{e.Key, e.Text})
			}
			n.must("old", map[string]any{"rows": written}, nil)
		},
		vanish: func() { n.must("vanish", nil, nil) },
	}
}

// TestContractInNode checks that the phone's real disk follows the contract.
func TestContractInNode(t *testing.T) {
	needsNode(t)
	contract(t, func(t *testing.T) storage { return inNode(t) })
}

// TestBusyTabsInNode has two and three tabs tap over the phone's real disk.
func TestBusyTabsInNode(t *testing.T) {
	needsNode(t)
	sum := 0
	for count := 2; count <= 3; count++ {
		t.Run(fmt.Sprint(count, " tabs"),
			func(t *testing.T) { sum += busyTabs(t, uint64(count), count, 20, inNode(t)).sum() })
	}
	t.Logf("figure: told as saved and arrived: %d", sum)
}

// TestCommitsAreStrict checks that a commit waits until the data is on the medium. Otherwise a power loss may lose what
// was reported as saved.
func TestCommitsAreStrict(t *testing.T) {
	n := startNode(t)
	d := n.open()
	require.True(t, commits(t, d, batch("one", "", "1", "a/1")))
	_, _ = holds(t, d)
	d.breaks(before, nil)
	require.True(t, commits(t, d, batch("two", "1", "2", "a/2")))
	var durability []string
	n.must("written", nil, &durability)
	assert.Equal(t, []string{"strict", "strict", "strict"}, durability, "two commits, one of them tried twice")
}

// TestAStorageThatDoesNotAnswerIsOpenedAgain checks that the phone opens the storage again when a transaction never
// reports its end. A commit that was written without a report counts as done and is written only once.
func TestAStorageThatDoesNotAnswerIsOpenedAgain(t *testing.T) {
	n := startNode(t)
	d := n.open()
	require.True(t, commits(t, d, batch("one", "", "1", "a/1")))
	var done bool
	unanswered(t, n, d, func() (err error) {
		done, err = d.Commit(batch("two", "1", "2", "a/2"))
		return err
	})
	assert.True(t, done)
	var found device.Snapshot
	unanswered(t, n, d, func() (err error) {
		found, err = d.Read(device.Span{First: "a", Last: "c"})
		return err
	})
	assert.Equal(t, "2", found.Generation)
	assert.Len(t, found.Entries, 2)
}

// unanswered runs work whose first transaction never reports its end, and then fires the timeout for it.
func unanswered(t *testing.T, n *node, d *nodeDisk, work func() error) {
	t.Helper()
	n.must("silence", map[string]any{"disk": d.disk}, nil)
	ended := make(chan error, 1)
	go func() { ended <- work() }()
	n.must("unheard", nil, nil)
	var passed int
	n.must("timeout", nil, &passed)
	require.Equal(t, 1, passed, "limits waited for")
	require.NoError(t, <-ended)
}
