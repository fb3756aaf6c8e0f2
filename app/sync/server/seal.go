package server

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"garlandry/app/job"
)

// sealed is what a seal covers: the operation, its stamp, its author and the log.
type sealed struct {
	Log       string     `json:"log"`
	Op        job.Op     `json:"op"`
	Effective int64      `json:"eff"`
	Author    job.Author `json:"by"`
}

func sealedBody(log string, r job.Rec) ([]byte, error) {
	body, err := json.Marshal(sealed{log, r.Op, r.Effective, r.Author})
	if err != nil {
		return nil, fmt.Errorf("write operation %s for its seal: %w", r.ID, err)
	}
	return body, nil
}

// Seal returns the server's HMAC-SHA256 over the record's operation, stamp, author and log, as 32 hex digits. It leaves
// out the sequence, which changes when a restored server is healed.
func Seal(key []byte, log string, r job.Rec) (string, error) {
	body, err := sealedBody(log, r)
	if err != nil {
		return "", err
	}
	return seal(key, body), nil
}

func seal(key, body []byte) string {
	mac := hmac.New(sha256.New, key)
	mac.Write(body)
	return hex.EncodeToString(mac.Sum(nil)[:16])
}

// Verify reports whether the record's seal was made with the key. An empty key verifies nothing.
func Verify(key []byte, log string, r job.Rec) bool {
	want, err := Seal(key, log, r)
	return err == nil && len(key) > 0 && hmac.Equal([]byte(want), []byte(r.MAC))
}

// chain returns the chain hash after a record with the body, as 32 hex digits, given the one before.
func chain(before string, body []byte) string {
	h := sha256.New()
	h.Write([]byte(before))
	h.Write([]byte{'\n'})
	h.Write(body)
	return hex.EncodeToString(h.Sum(nil)[:16])
}
