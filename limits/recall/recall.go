// Package recall lets many runs in one process compute once what they ask of the same input. It is for tests that play the
// program many times over a few designs; without a Memory in the context, as in the program itself, everything is computed
// each time it is asked.
//
// What is recalled is shared: nobody may change it.
package recall

import (
	"context"
	"encoding/binary"
	"fmt"
	"hash/maphash"
	"math"
	"reflect"
	"sync"
)

// Memory is what was computed so far. It may be used from several goroutines.
type Memory struct {
	seeds [2]maphash.Seed
	shots bool // and nothing else is known
	mutex sync.Mutex
	known map[sum]any
}

// sum tells inputs apart: two sums of 64 bits, so that in a process no two inputs meet by chance.
type sum [2]uint64

// New is an empty memory.
func New() *Memory {
	return &Memory{seeds: [2]maphash.Seed{maphash.MakeSeed(), maphash.MakeSeed()}, known: map[sum]any{}}
}

// Shots is an empty memory of shots alone. Of what is put together of them it knows nothing: that is done anew each time.
func Shots() *Memory {
	m := New()
	m.shots = true
	return m
}

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
	m := Of(ctx)
	if m == nil || m.shots {
		return compute()
	}
	at := m.sum(key())
	if before, ok := m.of(at); ok {
		return before.(T), nil
	}
	now, err := compute()
	if err == nil && ctx.Err() == nil {
		m.keep(at, now)
	}
	return now, err
}

// of is what is known at a sum.
func (m *Memory) of(at sum) (any, bool) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	before, ok := m.known[at]
	return before, ok
}

func (m *Memory) keep(at sum, now any) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	m.known[at] = now
}

// sum is that of a key.
func (m *Memory) sum(key Key) sum {
	spelt := spellings.Get().(*[]byte)
	defer spellings.Put(spelt)
	b := (*spelt)[:0]
	for _, part := range key {
		b = spell(b, reflect.ValueOf(part))
	}
	*spelt = b
	return sum{maphash.Bytes(m.seeds[0], b), maphash.Bytes(m.seeds[1], b)}
}

var spellings = sync.Pool{New: func() any { return new([]byte) }}

// spell writes a value out: its type where that can differ, and all that it holds.
func spell(b []byte, v reflect.Value) []byte {
	number := binary.LittleEndian.AppendUint64
	switch v.Kind() {
	case reflect.Invalid:
		return append(b, 0)
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			return append(b, 0)
		}
		b = append(b, 1)
		if v.Kind() == reflect.Interface {
			b = append(append(b, v.Elem().Type().String()...), 0)
		}
		return spell(b, v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			b = spell(b, v.Field(i))
		}
		return b
	case reflect.Slice, reflect.Array:
		if v.Kind() == reflect.Slice && v.IsNil() {
			return append(b, 0)
		}
		b = number(append(b, 1), uint64(v.Len()))
		for i := range v.Len() {
			b = spell(b, v.Index(i))
		}
		return b
	case reflect.String:
		return append(number(b, uint64(v.Len())), v.String()...)
	case reflect.Bool:
		if v.Bool() {
			return append(b, 1)
		}
		return append(b, 0)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return number(b, uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return number(b, v.Uint())
	case reflect.Float32, reflect.Float64:
		return number(b, math.Float64bits(v.Float()))
	}
	if (v.Kind() == reflect.Func || v.Kind() == reflect.Chan || v.Kind() == reflect.Map) && v.IsNil() {
		return append(b, 0)
	}
	panic(fmt.Sprintf("recall: a %s is no part of a key", v.Type()))
}
