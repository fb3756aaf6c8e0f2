package stock_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// readTable returns the rows of a published table in the module's testdata, each keyed by the table's header.
func readTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", filepath.FromSlash(name)))
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 1, "table %s has no rows", name)
	rows := make([]map[string]string, 0, len(records)-1)
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, key := range records[0] {
			row[key] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func wholeOf(t *testing.T, row map[string]string, key string) int {
	t.Helper()
	value, err := strconv.Atoi(row[key])
	require.NoError(t, err, "column %s of %v", key, row)
	return value
}

func numberOf(t *testing.T, row map[string]string, key string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(row[key], 64)
	require.NoError(t, err, "column %s of %v", key, row)
	return value
}
