package sync_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/sync"
)

// Decoding checks the size limit too, so that no caller can forget it.
func TestABodyOverTheLimitIsNotDecoded(t *testing.T) {
	one, several := `{"v":1,"d":"phone"}`, `{"v":1,"logs":[{"l":"job1","req":{}}]}`
	for _, row := range []struct {
		name   string
		text   string
		limit  int
		decode func([]byte) error
	}{
		{"one log", one, sync.MaxBytes, func(data []byte) error { _, err := sync.DecodeRequest(data); return err }},
		{"several logs", several, sync.MaxBatchBytes, func(data []byte) error {
			_, err := sync.DecodeBatch(data)
			return err
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			body := []byte(row.text + strings.Repeat(" ", row.limit+1-len(row.text))) // valid JSON except for its size
			assert.NoError(t, row.decode(body[:row.limit]))
			assert.ErrorIs(t, row.decode(body), sync.ErrTooLarge)
		})
	}
}
