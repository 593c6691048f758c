// Package follow draft.
package follow
