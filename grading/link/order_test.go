package link

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestOrder(t *testing.T) {
	order, ring := Order(3, []Arrow{{2, 0}, {0, 1}, {1, 1}})
	if !slices.Equal(order, []int{2, 0, 1}) || len(ring) != 0 {
		t.Errorf("order %v, ring %v", order, ring)
	}
	// 0 and 1 follow each other; 2 follows 1 and is none of it.
	order, ring = Order(3, []Arrow{{0, 1}, {1, 0}, {1, 2}})
	if !slices.Equal(ring, []int{0, 1}) || order[2] != 2 || len(order) != 3 {
		t.Errorf("order %v, ring %v", order, ring)
	}
}

// Whatever follows what: every piece comes once, and after all it is drawn from
// but for the arrows in a ring; taking these away leaves no ring.
func TestOrderOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "pieces")
		piece := rapid.IntRange(0, n-1)
		arrows := make([]Arrow, rapid.IntRange(0, 20).Draw(t, "arrows"))
		for i := range arrows {
			arrows[i] = Arrow{piece.Draw(t, "lead"), piece.Draw(t, "follow")}
		}
		order, ring := Order(n, arrows)
		at := make([]int, n)
		for i := range at {
			at[i] = -1
		}
		for i, q := range order {
			if at[q] >= 0 {
				t.Fatalf("piece %d comes twice", q)
			}
			at[q] = i
		}
		if len(order) != n {
			t.Fatalf("%d of %d pieces are drawn", len(order), n)
		}
		var rest []Arrow
		for k, a := range arrows {
			if slices.Contains(ring, k) {
				continue
			}
			rest = append(rest, a)
			if a.Lead != a.Follow && at[a.Lead] > at[a.Follow] {
				t.Fatalf("%d is drawn before its leader %d", a.Follow, a.Lead)
			}
		}
		if _, again := Order(n, rest); len(again) != 0 {
			t.Fatalf("taking the ring away left a ring: %v", again)
		}
	})
}
