package device_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/require"
)

// BenchmarkTally counts one more on a card's page without signal, until the page is drawn. Disk and network are test
// doubles, so it times the core alone.
func BenchmarkTally(b *testing.B) {
	w := newWorld(b)
	phone := w.phone(job.Owner, "Dora")
	phone.enter("/")
	text, err := os.ReadFile("../../testdata/jobs/reading-room.json")
	require.NoError(b, err)
	made := phone.post("p", "/import", "text", string(text))
	at := made.Path
	phone.sent()
	phone.wire.set(offline)
	page := phone.get(at + "/cards").Parts["page"]
	_, rest, found := strings.Cut(page, `href="`+at+`/cards/make/`)
	require.True(b, found)
	piece, _, _ := strings.Cut(rest, `"`)
	card := at + "/cards/make/" + piece
	require.Equal(b, "drawn", phone.get(card).Type)
	i := 0
	for b.Loop() {
		i++
		require.Equal(b, "drawn",
			phone.post(fmt.Sprint("t", i), at+"/do", "act", "add", "e", "card/make/"+piece, "n", "1", "back", card).Type)
	}
}
