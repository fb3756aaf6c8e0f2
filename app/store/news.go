package store

import stdsync "sync"

// News says how far a log has come. It never carries data: that comes by a sync.
type News struct {
	Log   string
	Epoch string
	Seq   uint64
	by    string // the session whose phone brought it by a sync: it knows already
}

type news struct {
	mu     stdsync.Mutex
	closed bool
	subs   map[string]map[chan News]string // by job: who listens, by session
}

func newNews() *news { return &news{subs: map[string]map[chan News]string{}} }

// Subscribe gives a channel that receives, after each commit to one of the job's two logs, how far that log has come. A
// slow reader misses steps in between, never the last one of a log for good: after a miss, any later one tells as much.
// What a phone of the session itself brought by a sync is no news to it, and is left out; session "" hears everything.
// The channel is closed by cancel, when the store closes, or when the session's device is ended. Cancel may be called
// more than once.
func (s *Store) Subscribe(jobID, session string) (<-chan News, func()) {
	n := s.news
	ch := make(chan News, 8)
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.closed {
		close(ch)
		return ch, func() {}
	}
	if n.subs[jobID] == nil {
		n.subs[jobID] = map[chan News]string{}
	}
	n.subs[jobID][ch] = session
	return ch, func() { n.cancel(jobID, ch) }
}

func (n *news) cancel(jobID string, ch chan News) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if _, there := n.subs[jobID][ch]; !there {
		return
	}
	delete(n.subs[jobID], ch)
	if len(n.subs[jobID]) == 0 {
		delete(n.subs, jobID)
	}
	close(ch)
}

// tell passes the news on; where a channel is full the oldest makes room.
func (n *news) tell(what News) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for ch, session := range n.subs[jobOf(what.Log)] {
		if session != "" && session == what.by {
			continue
		}
		for sent := false; !sent; {
			select {
			case ch <- what:
				sent = true
			default:
				select {
				case <-ch:
				default:
				}
			}
		}
	}
}

// end closes the channels of sessions that were closed.
func (n *news) end(sessions map[string]bool) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for jobID, subs := range n.subs {
		for ch, session := range subs {
			if sessions[session] {
				delete(subs, ch)
				close(ch)
			}
		}
		if len(subs) == 0 {
			delete(n.subs, jobID)
		}
	}
}

func (n *news) close() {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.closed = true
	for _, subs := range n.subs {
		for ch := range subs {
			close(ch)
		}
	}
	n.subs = map[string]map[chan News]string{}
}
