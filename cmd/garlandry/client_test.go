package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/require"
)

// visitor opens a link without a browser and keeps the cookie.
func visitor(t *testing.T, link, name string) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	client := &http.Client{Jar: jar, Timeout: 20 * time.Second}
	address, token, found := strings.Cut(link, "#")
	require.True(t, found, link)
	answer, err := client.PostForm(address, url.Values{"token": {token}, "name": {name}})
	require.NoError(t, err)
	document(t, answer)
	return client
}

// exchange posts one sync request of a phone. It returns an error for network failures; other failures show in the
// status.
func exchange(c *http.Client, address, log string, request wire.Request) (wire.Response, int, error) {
	request.V, request.App = wire.WireVersion, "test"
	body, err := json.Marshal(request)
	if err != nil {
		return wire.Response{}, 0, err
	}
	answer, err := c.Post(address+"/api/v1/jobs/"+log+"/sync", "application/json", bytes.NewReader(body))
	if err != nil {
		return wire.Response{}, 0, err
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		return wire.Response{}, answer.StatusCode, err
	}
	response, err := wire.DecodeResponse(data)
	return response, answer.StatusCode, err
}

// records pulls a job's whole log and checks that no operation and no device number occurs twice.
func records(t *testing.T, c *http.Client, address, log string) []job.Rec {
	t.Helper()
	var recs []job.Rec
	cursor, ids, numbers := wire.Cursor{}, map[string]bool{}, map[string]bool{}
	for {
		answer, status, err := exchange(c, address, log,
			wire.Request{Device: "reader", Now: time.Now().UnixMilli(), Cursor: cursor})
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, status)
		for _, r := range answer.Recs {
			number := fmt.Sprint(r.Device, " ", r.Number)
			require.False(t, ids[r.ID], "operation %s is in the log twice", r.ID)
			require.False(t, numbers[number], "number %s is in the log twice", number)
			ids[r.ID], numbers[number] = true, true
		}
		recs = append(recs, answer.Recs...)
		cursor = wire.Cursor{Epoch: answer.Epoch, Seq: answer.Seq, Hash: answer.Hash}
		if !answer.More {
			require.EqualValues(t, len(recs), answer.Count)
			return recs
		}
	}
}
