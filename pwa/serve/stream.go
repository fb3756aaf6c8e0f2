package serve

import (
	"fmt"
	"hash/fnv"
	"net/http"
	"sync"
	"time"

	"github.com/labstack/echo/v4"
)

// stream sends server-sent events to one phone.
type stream struct {
	w       http.ResponseWriter
	control *http.ResponseController
	retry   time.Duration
}

func newStream(c echo.Context) *stream {
	h := fnv.New32a()
	_, _ = h.Write([]byte(c.RealIP() + c.Request().Header.Get("Cookie"))) // writing to a hash never fails
	// After a restart, phones reconnect spread over five seconds.
	return &stream{c.Response().Writer, http.NewResponseController(c.Response().Writer),
		3*time.Second + time.Duration(h.Sum32()%5000)*time.Millisecond}
}

func (s *stream) begin() error {
	h := s.w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("X-Accel-Buffering", "no")
	s.w.WriteHeader(http.StatusOK)
	_ = s.control.SetReadDeadline(time.Time{}) // the server's read timeout would end the stream
	return s.write(fmt.Sprintf("retry: %d\n\n", s.retry.Milliseconds()))
}

func (s *stream) send(id, event, data string) error {
	text := "event: " + event + "\ndata: " + data + "\n\n"
	if id != "" {
		text = "id: " + id + "\n" + text
	}
	return s.write(text)
}

func (s *stream) write(text string) error {
	_ = s.control.SetWriteDeadline(time.Now().Add(2 * alive)) // if unsupported, the server's write timeout holds
	if _, err := s.w.Write([]byte(text)); err != nil {
		return err
	}
	return s.control.Flush()
}

// streamCount limits the streams of each session.
type streamCount struct {
	mu   sync.Mutex
	byID map[string]int
}

const streamsEach = 2

func newStreamCount() *streamCount { return &streamCount{byID: map[string]int{}} }

func (n *streamCount) open(session string) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.byID[session] >= streamsEach {
		return false
	}
	n.byID[session]++
	return true
}

func (n *streamCount) close(session string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.byID[session]--; n.byID[session] <= 0 {
		delete(n.byID, session)
	}
}

func realTicker(every time.Duration) (<-chan time.Time, func()) {
	t := time.NewTicker(every)
	return t.C, t.Stop
}
