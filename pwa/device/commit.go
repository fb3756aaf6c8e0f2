package device

import (
	"encoding/json"
	"errors"
	"slices"
	"strconv"

	"garlandry/app/sync/phone"
)

// commit writes a step and the device's own entries in one transaction. An empty step writes nothing. It returns
// [errStale] if another tab was faster: the phone must then be loaded again. If the storage refuses there is no error:
// the phone in memory goes on, and every later commit tries to write the refused batch too.
func (c *Core) commit(step phone.Step, own []Entry) error {
	rev := c.base.rev
	if c.unwritten != nil {
		rev = c.ahead
	}
	switch {
	case step.Empty():
		return nil
	case step.If != rev: // a step before it was never written
		return errStale
	}
	b := Batch{Token: c.NewID(), Expected: c.base.generation, Next: strconv.FormatUint(step.Rev, 10),
		Delete: append(c.expired, step.Delete...), Put: own}
	for _, r := range step.Drop {
		b.Empty = append(b.Empty, Span{r.From, r.To})
	}
	for _, row := range step.Put {
		b.Put = append(b.Put, Entry{row.Key, string(row.Value)})
	}
	if c.unwritten != nil {
		b = c.unwritten.then(b)
	}
	return c.write(b, step.Rev)
}

func (c *Core) write(b Batch, rev uint64) error {
	done, err := c.Disk.Commit(b)
	if err != nil {
		if c.unwritten == nil {
			c.pending = redrawPage
		}
		c.unwritten, c.ahead, c.refusal = &b, rev, err.Error()
		return nil
	}
	if !done {
		return errStale
	}
	if c.unwritten != nil {
		c.pending = redrawPage
	}
	c.base, c.expired, c.unwritten = base{b.Next, rev}, nil, nil
	c.phone.Stored()
	return nil
}

// then merges two successive batches into one.
func (b Batch) then(next Batch) Batch {
	whole := Batch{Token: next.Token, Expected: b.Expected, Next: next.Next,
		Empty: append(b.Empty, next.Empty...), Delete: append(b.Delete, next.Delete...)}
	gone := map[string]bool{}
	for _, key := range next.Delete {
		gone[key] = true
	}
	for _, e := range next.Put {
		gone[e.Key] = true // overwritten
	}
	for _, e := range b.Put {
		if !gone[e.Key] && !within(next.Empty, e.Key) {
			whole.Put = append(whole.Put, e)
		}
	}
	whole.Put = append(whole.Put, next.Put...)
	return whole
}

func within(spans []Span, key string) bool {
	for _, s := range spans {
		if s.First <= key && key < s.Last {
			return true
		}
	}
	return false
}

// flush tries again to write what the storage refused.
func (c *Core) flush() {
	if c.unwritten != nil && errors.Is(c.write(*c.unwritten, c.ahead), errStale) {
		_ = c.load() // on an error the phone in memory goes on as it is
	}
}

// attempts is how often an action is tried when another tab is faster. With locks between tabs the second try succeeds.
// Without them, each failure means that another tab succeeded and is drawing its page. So many in a row mean that
// something is broken, and the person is told.
const attempts = 100

// do runs an action and writes its step. If another tab was faster, it loads again and repeats the action. A storage
// that refuses is no error, see [Core.commit].
func (c *Core) do(act func() (phone.Step, []Entry, error)) error {
	step, own, err := act()
	if err == nil && step.Empty() {
		return nil
	}
	if err == nil {
		err = c.Disk.Alone(func() error {
			for range attempts {
				err := c.commit(step, own)
				if !errors.Is(err, errStale) {
					return err
				}
				merges := c.merges
				if err = c.load(); err != nil || c.merges != merges {
					return err // the merge wrote the action too
				}
				if step, own, err = act(); err != nil {
					return err
				}
			}
			return errStale
		})
	}
	if err != nil {
		return errors.Join(err, c.load())
	}
	if !step.Empty() && c.unwritten == nil {
		c.Page.TellOthers()
	}
	return nil
}

// opening is a storage being opened, with what this core knew before.
type opening struct {
	before *phone.Phone      // the phone in memory
	was    me                // the person
	posts  map[string]bool   // stored posts
	off    map[string]string // jobs removed from this phone
	step   phone.Step        // creates a new phone
	store  string            // name of the storage; "" for none
	fresh  bool              // the storage holds no phone
}

// settle writes what the storage lacks: its name, and data that only this core still has.
func (c *Core) settle(o opening) error {
	step, name := o.step, o.store
	cleared := o.before != nil && c.store != "" && c.store != o.store
	c.cleared = c.cleared || cleared
	c.rescuing = c.rescuing || cleared || c.unwritten != nil
	var own []Entry
	if o.before != nil && c.rescuing {
		merged, err := c.phone.Merge(o.before, o.fresh)
		if err != nil {
			return err
		}
		c.merges++
		step, c.unwritten = joined(step, merged), nil
		own = c.rescueOwn(o.was, o.posts)
		if o.fresh {
			own = append(own, c.rescueOff(o.off)...)
		}
	}
	if name == "" || cleared && o.fresh {
		name = c.NewID()
		own = append(own, Entry{keyStore, name})
	}
	if step.Empty() && len(own) > 0 {
		var err error
		if step, err = c.phone.SetAuthor(c.phone.Author()); err != nil {
			return err
		}
	}
	c.store = o.store
	err := c.commit(step, own)
	if err == nil {
		c.store, c.rescuing = name, false
	}
	return err
}

func joined(first, second phone.Step) phone.Step {
	if first.Empty() {
		return second
	}
	return join([]phone.Step{first, second})
}

// rescueOwn keeps the person and the ids of stored posts, and returns entries that store them.
func (c *Core) rescueOwn(was me, posts map[string]bool) []Entry {
	var own []Entry
	if c.me.Role == "" && was.Role != "" {
		c.me = was
		if text, err := json.Marshal(was); err == nil {
			own = append(own, Entry{keyMe, string(text)})
		}
	}
	var ids []string
	for id := range posts {
		if !c.posts[id] {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	for _, id := range ids {
		c.posts[id] = true
		own = append(own, Entry{keyPosts + id, formatMS(c.Now())})
	}
	return own
}

func (c *Core) tellCleared() {
	c.pending, c.cleared = redrawPage, false
	words := "This phone’s storage was cleared while the app was open. "
	if c.unwritten != nil {
		c.messages = messages{alert: words + "Nothing can be saved now. Stay on this page until all is shared.", unread: true}
		return
	}
	c.messages = messages{alert: words + "What was not shared is saved again.", unread: true}
}

// checkStore checks that the storage was not cleared since this core started.
func (c *Core) checkStore() {
	if c.unwritten != nil {
		c.flush()
		return
	}
	found, err := c.Disk.Read(Span{keyStore, keyStore + "\x00"})
	if err == nil && (len(found.Entries) == 0 || found.Entries[0].Text != c.store) {
		_ = c.load() // on an error the next check tries again
	}
}
