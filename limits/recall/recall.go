// Package recall lets many runs in one process compute once what they ask of the same input. It is for tests that play the
// program many times over a few designs; without a Memory in the context, as in the program itself, everything is computed
// each time it is asked.
//
// What is recalled is shared: nobody may change it.
package recall

import (
	"context"
	"fmt"
	"hash/maphash"
	"math"
	"reflect"
	"sync"
)

// Memory is what was computed so far. It may be used from several goroutines.
type Memory struct {
	seed  maphash.Seed
	mutex sync.Mutex
	known map[sum]any
}

// sum tells inputs apart: two sums of 64 bits, so that in a process no two inputs meet by chance.
type sum [2]uint64

// New is an empty memory.
func New() *Memory { return &Memory{seed: maphash.MakeSeed(), known: map[sum]any{}} }

type memoryKey struct{}

// With gives a context below which m is asked first.
func With(ctx context.Context, m *Memory) context.Context {
	return context.WithValue(ctx, memoryKey{}, m)
}

// Key names what is computed, and all of what it is computed from: plain data, pointers followed. A function or a channel
// in it panics unless it is nil, since two of them cannot be told to be the same.
type Key []any

// Once gives what compute gave for the same key, or what it gives now. An error is not kept, nor is what comes of a
// context that has ended.
func Once[T any](ctx context.Context, key func() Key, compute func() (T, error)) (T, error) {
	m, ok := ctx.Value(memoryKey{}).(*Memory)
	if !ok {
		return compute()
	}
	at := m.sum(key())
	m.mutex.Lock()
	before, ok := m.known[at]
	m.mutex.Unlock()
	if ok {
		return before.(T), nil
	}
	now, err := compute()
	if err == nil && ctx.Err() == nil {
		m.mutex.Lock()
		m.known[at] = now
		m.mutex.Unlock()
	}
	return now, err
}

// sum is that of a key.
func (m *Memory) sum(key Key) (s sum) {
	for i := range s {
		var h maphash.Hash
		h.SetSeed(m.seed)
		maphash.WriteComparable(&h, i)
		for _, part := range key {
			add(&h, reflect.ValueOf(part))
		}
		s[i] = h.Sum64()
	}
	return s
}

// add takes a value into a hash: its type where that can differ, and all that it holds.
func add(h *maphash.Hash, v reflect.Value) {
	switch v.Kind() {
	case reflect.Invalid:
		h.WriteByte(0)
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			h.WriteByte(0)
			return
		}
		h.WriteByte(1)
		if v.Kind() == reflect.Interface {
			h.WriteString(v.Elem().Type().String())
		}
		add(h, v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			add(h, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		if v.Kind() == reflect.Slice && v.IsNil() {
			h.WriteByte(0)
			return
		}
		h.WriteByte(1)
		maphash.WriteComparable(h, v.Len())
		for i := range v.Len() {
			add(h, v.Index(i))
		}
	case reflect.String:
		maphash.WriteComparable(h, v.Len())
		h.WriteString(v.String())
	case reflect.Bool:
		maphash.WriteComparable(h, v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		maphash.WriteComparable(h, v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		maphash.WriteComparable(h, v.Uint())
	case reflect.Float32, reflect.Float64:
		maphash.WriteComparable(h, math.Float64bits(v.Float()))
	default:
		if (v.Kind() == reflect.Func || v.Kind() == reflect.Chan || v.Kind() == reflect.Map) && v.IsNil() {
			h.WriteByte(0)
			return
		}
		panic(fmt.Sprintf("recall: a %s is no part of a key", v.Type()))
	}
}
