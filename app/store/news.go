package store

import stdsync "sync"

// News reports a log's new end. It carries no data; a sync fetches that.
type News struct {
	Log   string
	Epoch string
	Seq   uint64
	by    string // the session whose phone sent the change, and so knows of it
}

type news struct {
	mu     stdsync.Mutex
	closed bool
	subs   map[string]map[chan News]string // by job: the listening session of each channel
}

func newNews() *news { return &news{subs: map[string]map[chan News]string{}} }

// Subscribe returns a channel that receives a log's new end after each commit to one of the job's two logs. A slow
// reader may miss some, but a later one says as much. Changes that the session's own phone sent are left out; session
// "" receives everything. The channel closes when cancel is called, the store closes, or the session's device is ended.
// Cancel may be called more than once.
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

// tell sends the news to all channels of the job. In a full channel it replaces the oldest.
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
