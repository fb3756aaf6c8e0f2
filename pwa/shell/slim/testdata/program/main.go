// Program exercises what the runtime reads from its tables: growing stacks, collection of garbage with pointers only on
// stacks, deferred and recovered panics, methods made by the compiler, goroutines and timers.
package main

import (
	"errors"
	"fmt"
	"runtime"
	"sort"
	"strings"
	"sync"
	"time"
)

type named interface{ Name() string }

type piece struct{ name string }

//go:noinline
func (p piece) Name() string { return p.name }

//go:noinline
func nameOf(n named) string { return n.Name() }

func deep(n int, words []string) []string {
	if n == 0 {
		runtime.GC()
		return words
	}
	word := strings.Repeat("x", n%7)
	got := deep(n-1, append(words, word))
	if word != strings.Repeat("x", n%7) {
		panic("lost a word")
	}
	return got
}

func try(f func()) (message string) {
	defer func() {
		if r := recover(); r != nil {
			message = fmt.Sprint(r)
		}
	}()
	f()
	return "fine"
}

func main() {
	fmt.Println(len(deep(20000, nil)))
	var missing *piece
	var list []int
	fmt.Println(try(func() { _ = nameOf(missing) }))
	fmt.Println(try(func() { fmt.Println(list[len(list)]) }))
	fmt.Println(try(func() { defer func() { panic(errors.New("second")) }(); panic("first") }))
	fmt.Println(try(func() { var m map[string]int; m["a"] = 1 }))
	var wait sync.WaitGroup
	results := make([]string, 50)
	for i := range results {
		wait.Add(1)
		go func() {
			defer wait.Done()
			time.Sleep(time.Millisecond)
			runtime.Gosched()
			results[i] = strings.Join(deep(200, nil), "")
		}()
	}
	wait.Wait()
	sort.Strings(results)
	fmt.Println(len(results[0]), results[0] == results[49])
}
