package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/store"
	"garlandry/calc"
	"garlandry/calc/cluster"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const samples = "../../testdata/jobs/"

// cli runs one command line in this process.
func cli(args ...string) (code int, out, complaint string) {
	var o, e bytes.Buffer
	code = run(args, stdio{strings.NewReader(""), &o, &e})
	return code, o.String(), e.String()
}

// refused checks that a command line is rejected with one line of output, and returns that line.
func refused(t *testing.T, args ...string) string {
	t.Helper()
	code, out, complaint := cli(args...)
	assert.Equal(t, 2, code, "%v: %s", args, complaint)
	assert.Empty(t, out, "%v", args)
	assert.Equal(t, 1, strings.Count(strings.TrimSpace(complaint), "\n")+1, "one line: %s", complaint)
	return complaint
}

func TestCLIVersion(t *testing.T) {
	code, out, _ := cli("version")
	assert.Equal(t, 0, code)
	assert.Regexp(t, `^garlandry \S+, build .*go1\.\d+\S* \w+/\w+\n$`, out)
}

func TestCLISchemaAcceptsAndRejects(t *testing.T) {
	code, out, _ := cli("schema")
	require.Equal(t, 0, code)
	document, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	require.NoError(t, compiler.AddResource("job.json", document))
	schema, err := compiler.Compile("job.json")
	require.NoError(t, err)
	for name, good := range map[string]bool{
		"reading-room.json": true, "allotment-supper.json": true, "bad/not-an-object.json": false,
		"bad/no-version.json": false, "bad/negative-length.json": false, "bad/unknown-kind.json": false} {
		data, err := os.ReadFile(samples + name)
		require.NoError(t, err)
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		require.NoError(t, err)
		assert.Equal(t, good, schema.Validate(value) == nil, "%s: %v", name, schema.Validate(value))
	}
}

func TestCLIPlan(t *testing.T) {
	for _, name := range []string{"reading-room.json", "allotment-supper.json"} {
		code, out, complaint := cli("plan", samples+name)
		assert.Equal(t, 0, code, complaint)
		for _, part := range []string{"PIECES", "BALLOONS", "PACK", "CARDS", "CLOCK", "WHAT WOULD HELP"} {
			assert.Contains(t, out, part, name)
		}
		code, out, complaint = cli("plan", samples+name, "--json")
		assert.Equal(t, 0, code, complaint)
		var parsed map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &parsed), name)
		assert.NotEmpty(t, parsed)
	}
}

// A line of the pack list says what its number counts.
func TestCLIPlanSaysWhatIsCounted(t *testing.T) {
	code, out, complaint := cli("plan", samples+"attic-birthday.json")
	assert.Equal(t, 0, code, complaint)
	assert.Regexp(t, `(?m)^  23 m +Non-conductive ribbon `, out)
	assert.Regexp(t, `(?m)^  1 roll +Glue dots `, out)
	assert.Regexp(t, `(?m)^  1 +Hand pump `, out)
}

// TestCLIPlanHasNoCardOfZeroMinutes prints a digit of four balloons. Putting it up takes under half a minute.
func TestCLIPlanHasNoCardOfZeroMinutes(t *testing.T) {
	file := filepath.Join(t.TempDir(), "digit.json")
	require.NoError(t, os.WriteFile(file, []byte(`{"garlandry":1,"brief":{"title":"A digit"},
		"colours":[{"id":"mint","name":"Mint","sizes":[24]}],
		"pieces":[{"id":"one","name":"Number 1","kind":"numbers","digits":"1","height_mm":1000,"size_in":24,
			"colours":[{"colour":"mint","weight":1}]}]}`), 0o600))
	code, out, complaint := cli("plan", file)
	require.Equal(t, 0, code, complaint)
	assert.Regexp(t, `Put up Number 1 .* 1 min `, out)
	assert.NotContains(t, out, "  0 min")
}

func TestCLIPlanNamesTheField(t *testing.T) {
	fields := map[string]string{"doors-before-in": "brief.doors", "million-duplets": "pieces[0].recipe",
		"negative-length": "pieces[0].length_mm", "newer": "garlandry", "no-sizes": "colours[0].sizes",
		"no-version": "garlandry", "not-an-object": "file", "ten-kilometres": "pieces[0].length_mm",
		"truncated": "file", "twice": "pieces[1].id", "unknown-colour": "pieces[0].colours",
		"unknown-kind": "pieces[0].kind", "unknown-size": "pieces[0].recipe"}
	files, err := filepath.Glob(samples + "bad/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		field, known := fields[strings.TrimSuffix(filepath.Base(file), ".json")]
		require.True(t, known, "say which field is wrong in %s", file)
		assert.Contains(t, refused(t, "plan", file), file+": "+field+": ")
	}
	refused(t, "plan", filepath.Join(t.TempDir(), "none.json"))
	refused(t, "plan", t.TempDir())
}

func TestCLICalcListAndExamples(t *testing.T) {
	code, list, _ := cli("calc")
	require.Equal(t, 0, code)
	for _, c := range calc.All() {
		assert.Contains(t, list, exampleLine(c))
		args := []string{"calc", c.Name, "--json"}
		for _, in := range c.Example.Inputs {
			args = append(args, in.Key+"="+in.Text)
		}
		code, out, complaint := cli(args...)
		require.Equal(t, 0, code, "%v: %s", args, complaint)
		var parsed map[string]json.RawMessage
		require.NoError(t, json.Unmarshal([]byte(out), &parsed), c.Name)
		for _, key := range []string{"name", "inputs", "outputs", "notes", "sources"} {
			assert.Contains(t, parsed, key, c.Name)
		}
		assert.JSONEq(t, `"`+c.Name+`"`, string(parsed["name"]))
		code, out, _ = cli(append([]string{"calc", c.Name}, args[3:]...)...)
		assert.Equal(t, 0, code)
		assert.Contains(t, out, c.Purpose)
	}
}

// TestCLICalcSpeaksOneSystem checks that assumed inputs are shown in the reader's units, and that --metric reads a bare
// size as centimetres: 25 cm of 27.94 cm (11 in) are 89.5 %.
func TestCLICalcSpeaksOneSystem(t *testing.T) {
	_, feet, _ := cli("calc", "heat", "size=11")
	feet, _, _ = strings.Cut(feet, "\nTake care") // cautions name both
	assert.NotContains(t, feet, "°C")
	assert.Contains(t, feet, "68 °F   (assumed)")
	_, metres, _ := cli("calc", "--metric", "heat", "size=11")
	metres, _, _ = strings.Cut(metres, "\nTake care")
	assert.Contains(t, metres, "20 °C   (assumed)")
	assert.NotContains(t, metres, "°F")
	_, size, complaint := cli("calc", "--metric", "size", "size=11", "to=25")
	assert.Regexp(t, `Full +89\.5 %`, size, complaint)
}

// TestCLICalcComputesRecipesOutsideTheTable checks that such a recipe is relaxed at once and not estimated.
func TestCLICalcComputesRecipesOutsideTheTable(t *testing.T) {
	base, err := cluster.ParseRecipe("1x5@4 + 1x36@33")
	require.NoError(t, err)
	require.True(t, cluster.Estimated(base))
	pitch := cluster.PitchMM(base, cluster.StandardPush().By(&cluster.Model{AtOnce: true}))
	require.NotEqual(t, pitch, cluster.PitchMM(base, cluster.StandardPush()))
	for _, args := range [][]string{{"clusters", "length=3m"}, {"column", "height=2m"}} {
		code, out, complaint := cli(append([]string{"calc", "--json", args[0], "recipe=" + base.String()}, args[1:]...)...)
		require.Zero(t, code, complaint)
		assert.NotContains(t, out, "Estimated")
		var told struct {
			Outputs struct {
				Pitch float64 `json:"pitch_mm"`
			}
		}
		require.NoError(t, json.Unmarshal([]byte(out), &told))
		assert.InDelta(t, pitch, told.Outputs.Pitch, 0.01, "%v", args)
	}
	for _, args := range [][]string{{"accents", "length=3m"}, {"match", "with=36@33"}, {"wall", "width=2m", "height=2m"}} {
		code, out, complaint := cli(append([]string{"calc", args[0], "recipe=" + base.String()}, args[1:]...)...)
		require.Zero(t, code, complaint)
		assert.NotContains(t, out, "Estimated")
	}
}

func TestCLICalcRefusesWithRangeAndExample(t *testing.T) {
	for _, row := range []struct {
		name string
		args []string
		says []string
	}{
		{"unknown calculator", []string{"frogs"}, []string{"frogs", "clusters, ", "for example garlandry calc "}},
		{"key without a value", []string{"clusters", "length"}, []string{"length", "allowed: 2 in to ", "for example "}},
		{"empty value of a recipe", []string{"clusters", "recipe="}, []string{"recipe", "1 to 8 duplets of the sizes 5 to 36",
			"for example "}},
		{"empty value", []string{"clusters", "length="}, []string{"length", "allowed: 2 in to ", "for example "}},
		{"not an input", []string{"clusters", "frog"}, []string{"frog", "for example "}},
		{"unknown input", []string{"clusters", "frog=1"}, []string{"frog", "allowed: length, ", "for example "}},
		{"out of range", []string{"clusters", "length=99999ft"},
			[]string{"length", "allowed: 2 in to ", "for example length="}},
		{"not a number", []string{"clusters", "length=banana"},
			[]string{"length", "allowed: 2 in to ", "for example length="}},
		{"twice", []string{"clusters", "length=3ft", "length=4ft"}, []string{"length", "twice", "for example "}},
	} {
		t.Run(row.name, func(t *testing.T) {
			line := refused(t, append([]string{"calc"}, row.args...)...)
			for _, text := range row.says {
				assert.Contains(t, line, text)
			}
		})
	}
}

func TestCLICalcTakesFlagsAndCapitalsAnywhere(t *testing.T) {
	_, want, _ := cli("calc", "clusters", "length=3.05", "recipe=2x11@9.5", "--json", "--metric")
	require.Contains(t, want, `"clusters": 21`)
	for _, args := range [][]string{
		{"calc", "--metric", "clusters", "length=3.05", "--json", "recipe=2x11@9.5"},
		{"calc", "--json", "--metric", "clusters", "Length=3.05", "RECIPE=2X11@9.5"},
	} {
		code, out, complaint := cli(args...)
		require.Equal(t, 0, code, complaint)
		assert.JSONEq(t, want, strings.ReplaceAll(out, "2X11", "2x11"), "%v", args)
	}
	refused(t, "calc", "clusters", "--josn", "length=3m", "recipe=2x11")
	refused(t, "calc", "clusters", "length=3m", "LENGTH=4m", "recipe=2x11")
}

// madeData returns a closed data directory with the demo job.
func madeData(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	data, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	require.NoError(t, putDemo(context.Background(), data))
	require.NoError(t, data.Close())
	return dir
}

func jobsIn(t *testing.T, dir string) int {
	t.Helper()
	data, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	defer data.Close()
	jobs, err := data.Jobs(data.System("test"))
	require.NoError(t, err)
	return len(jobs)
}

func TestCLIBackupAndRestore(t *testing.T) {
	dir, file := madeData(t), filepath.Join(t.TempDir(), "copy.db")
	code, out, complaint := cli("backup", "--data", dir, file)
	require.Equal(t, 0, code, complaint)
	assert.Contains(t, out, file)

	before, err := os.ReadFile(file)
	require.NoError(t, err)
	code, _, complaint = cli("backup", "--data", dir, file)
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "nothing was changed")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(before, after), "an existing backup is not overwritten")

	other := t.TempDir()
	require.Equal(t, 0, jobsIn(t, other))
	code, out, complaint = cli("restore", "--data", other, file)
	require.Equal(t, 0, code, complaint)
	assert.Equal(t, 1, jobsIn(t, other))
	kept, err := filepath.Glob(filepath.Join(other, "garlandry.db.before-restore-*"))
	require.NoError(t, err)
	require.Len(t, kept, 1, "the old file is kept")
	assert.Contains(t, out, kept[0])

	refused(t, "restore", "--data", other, filepath.Join(other, "none.db"))
	refused(t, "backup", "--data", t.TempDir(), filepath.Join(other, "x.db"))
	missing := filepath.Join(t.TempDir(), "not", "there")
	assert.Contains(t, refused(t, "backup", "--data", other, filepath.Join(missing, "x.db")),
		"there is no folder "+missing+" to write the copy into")
}

func TestCLIRestoreFromTheJournal(t *testing.T) {
	dir := madeData(t)
	code, _, complaint := cli("restore", "--data", dir, "--journal", dir)
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "move it away")
	database := filepath.Join(dir, "garlandry.db")
	require.NoError(t, os.Rename(database, database+".damaged"))
	journals, err := filepath.Glob(filepath.Join(dir, "ops-*.ndjson"))
	require.NoError(t, err)
	require.NotEmpty(t, journals)
	last, err := os.OpenFile(journals[len(journals)-1], os.O_WRONLY|os.O_APPEND, 0)
	require.NoError(t, err)
	_, err = last.WriteString(`{"log":"cut off by a power fail`)
	require.NoError(t, errors.Join(err, last.Close()))

	code, out, complaint := cli("restore", "--data", dir, "--journal", dir)
	require.Equal(t, 0, code, complaint)
	assert.Regexp(t, `checked: \d+ operations in 1 job\.`, out)
	assert.Contains(t, out, "1 line could not be read")
	assert.Contains(t, out, "cut off")
	assert.Equal(t, 1, jobsIn(t, dir))

	refused(t, "restore", "--data", dir)
	refused(t, "restore", "--data", dir, "--journal", dir, "copy.db")
	refused(t, "restore", "--data", t.TempDir(), "--journal", filepath.Join(dir, "none"))
}

func TestCLIInUse(t *testing.T) {
	dir, file := madeData(t), filepath.Join(t.TempDir(), "copy.db")
	data, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	defer data.Close()
	for _, args := range [][]string{{"backup", "--data", dir, file},
		{"restore", "--data", dir, filepath.Join(dir, "garlandry.db")}, {"serve", "--data", dir, "--addr", "127.0.0.1:0"}} {
		if args[0] == "restore" {
			args[3] = filepath.Join(t.TempDir(), "good.db")
			require.NoError(t, data.Backup(context.Background(), args[3]))
		}
		code, _, complaint := cli(args...)
		assert.Equal(t, 1, code, args)
		assert.Contains(t, complaint, "in use by another process", args)
		assert.Contains(t, complaint, dir, args)
	}
	assert.NoFileExists(t, file)
}

func TestCLIBackupWhileTheServerRuns(t *testing.T) {
	dir, file := madeData(t), filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, os.MkdirAll(filepath.Dir(requestSocket(dir)), 0o755))
	require.NoError(t, os.WriteFile(requestSocket(dir), nil, 0o644)) // a killed server leaves this file
	server := startServer(t, dir, "", false)
	info, err := os.Stat(filepath.Dir(requestSocket(dir)))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o700), info.Mode().Perm(), "only the user who runs the server may connect")

	code, _, complaint := cli("backup", "--data", dir, file)
	require.Equal(t, 0, code, complaint)
	code, _, complaint = cli("backup", "--data", dir, file)
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "nothing was changed")
	server.stop()
	assert.NoFileExists(t, requestSocket(dir))

	other := t.TempDir()
	code, _, complaint = cli("restore", "--data", other, file)
	require.Equal(t, 0, code, complaint)
	assert.Equal(t, 1, jobsIn(t, other))
}

// TestCLIInviteLeadsToTheServer checks that an invite uses the server's last address, running or not, unless one is
// given.
func TestCLIInviteLeadsToTheServer(t *testing.T) {
	dir := madeData(t)
	invite := func(more ...string) string {
		code, out, complaint := cli(append([]string{"invite", "--data", dir}, more...)...)
		require.Equal(t, 0, code, complaint)
		return out
	}
	assert.Contains(t, invite(), " http://127.0.0.1:8080/j?as=owner#", "no server has run yet")
	server := startServer(t, dir, "", false)
	assert.Contains(t, invite(), " "+server.address+"/j?as=owner#")
	server.stop()
	out := invite()
	assert.Contains(t, out, " "+server.address+"/j?as=owner#")
	assert.Contains(t, out, "is at   "+server.address+"\n")
	assert.Contains(t, invite("--address", "https://balloons.example/"), " https://balloons.example/j?as=owner#")
	for _, junk := range []string{"", "nothing", "ftp://x", "\x00\xff"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, addressFile), []byte(junk), 0o600))
		assert.Contains(t, invite(), " http://127.0.0.1:8080/j?as=owner#", "%q", junk)
	}
}

func TestCLIServeRefusesBeforeItWrites(t *testing.T) {
	for _, row := range []struct {
		name, flag string
		rest       []string
	}{
		{"base URL of another scheme", "--base-url", []string{"--base-url", "ftp://balloons.example"}},
		{"base URL with a path", "--base-url", []string{"--base-url", "https://balloons.example/app"}},
		{"base URL that is none", "--base-url", []string{"--base-url", "balloons"}},
		{"certificate without key", "--tls-key", []string{"--tls-cert", "cert.pem"}},
		{"certificate that is not there", "--tls-cert", []string{"--tls-cert", "none.pem", "--tls-key", "none.key"}},
		{"address without port", "--addr", []string{"--addr", "nonsense"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "data")
			code, _, complaint := cli(append([]string{"serve", "--data", dir}, row.rest...)...)
			assert.Equal(t, 2, code)
			assert.Contains(t, complaint, row.flag)
			assert.NoDirExists(t, dir)
		})
	}
}

func TestCLIServeAddressInUse(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	dir := t.TempDir()
	code, out, complaint := cli("serve", "--data", dir, "--addr", l.Addr().String())
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, l.Addr().String())
	assert.Contains(t, complaint, "--addr takes another address")
	assert.NotContains(t, out, "owner#", "no link to a server that does not run")
	assert.Equal(t, 0, jobsIn(t, dir), "the new data directory is complete")
	assert.NoDirExists(t, filepath.Join(dir, "invites"))
}

func TestCLIServeReadOnlyDirectory(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root can write anywhere; run as another user: go test ./cmd/garlandry -run CLIServeReadOnly")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	code, _, complaint := cli("serve", "--data", dir, "--addr", "127.0.0.1:0")
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, dir)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}
