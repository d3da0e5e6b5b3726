// SPDX-License-Identifier: Apache-2.0

// Verifies an exported book with Go's own packages for checksum databases, golang.org/x/mod/sumdb/note and tlog;
// nothing of Fogwright is used.
//
//	verify-book-go book.jsonl book.checkpoint book.vkey [older.checkpoint ...]
//
// Exit status 0: all holds. 1: something does not, and it is named. On Debian, with golang-go and
// golang-golang-x-mod-dev installed:
//
//	GO111MODULE=off GOPATH=/usr/share/gocode go build -o verify-book-go main.go
package main

import (
	"bytes"
	"fmt"
	"os"
	"strconv"
	"strings"

	"golang.org/x/mod/sumdb/note"
	"golang.org/x/mod/sumdb/tlog"
)

// hashes holds the stored hashes of the tree in the order that tlog numbers them.
type hashes []tlog.Hash

func (h hashes) ReadHashes(indexes []int64) ([]tlog.Hash, error) {
	found := make([]tlog.Hash, len(indexes))
	for i, index := range indexes {
		if index >= int64(len(h)) {
			return nil, fmt.Errorf("no hash %d", index)
		}
		found[i] = h[index]
	}
	return found, nil
}

func readTree(lines [][]byte) (hashes, error) {
	var tree hashes
	for n, line := range lines {
		if !bytes.HasSuffix(line, []byte(fmt.Sprintf(`,"seq":%d,"v":1}`, n))) {
			return nil, fmt.Errorf("entry %d: its sequence number is another one", n)
		}
		more, err := tlog.StoredHashes(int64(n), line, tree)
		if err != nil {
			return nil, err
		}
		tree = append(tree, more...)
	}
	return tree, nil
}

// withoutMoreLineBreaks leaves of the line breaks at the end the one that belongs there: reading a checkpoint back from
// a code or a mail adds some, and no signature covers them.
func withoutMoreLineBreaks(data []byte) []byte {
	whole := bytes.TrimRight(data, "\r\n")
	if bytes.IndexByte(data[len(whole):], '\n') < 0 {
		return data
	}
	return append(whole[:len(whole):len(whole)], '\n')
}

func readCheckpoint(path string, verifier note.Verifier) (tlog.Tree, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return tlog.Tree{}, err
	}
	opened, err := note.Open(withoutMoreLineBreaks(data), note.VerifierList(verifier))
	if err != nil {
		return tlog.Tree{}, fmt.Errorf("%s: %v", path, err)
	}
	lines := strings.Split(opened.Text, "\n")
	if len(lines) != 4 || lines[0] != verifier.Name() || lines[3] != "" {
		return tlog.Tree{}, fmt.Errorf("%s: this is not a checkpoint of %s", path, verifier.Name())
	}
	size, err := strconv.ParseInt(lines[1], 10, 64)
	if err != nil || size < 0 || strconv.FormatInt(size, 10) != lines[1] {
		return tlog.Tree{}, fmt.Errorf("%s: malformed size", path)
	}
	root, err := tlog.ParseHash(lines[2])
	return tlog.Tree{N: size, Hash: root}, err
}

func checkOlder(path string, verifier note.Verifier, head tlog.Tree, tree hashes) error {
	older, err := readCheckpoint(path, verifier)
	if err != nil {
		return err
	}
	if older.N > head.N {
		return fmt.Errorf("the book has %d entries, %s was made of %d", head.N, path, older.N)
	}
	if older.N == 0 {
		return nil
	}
	proof, err := tlog.ProveTree(head.N, older.N, tree)
	if err != nil {
		return err
	}
	if err := tlog.CheckTree(proof, head.N, head.Hash, older.N, older.Hash); err != nil {
		return fmt.Errorf("the first %d entries are not those that %s was made of: %v", older.N, path, err)
	}
	return nil
}

// checkRecords proves each entry on its own, as a .tlog-proof file would.
func checkRecords(lines [][]byte, head tlog.Tree, tree hashes) error {
	for n, line := range lines {
		proof, err := tlog.ProveRecord(head.N, int64(n), tree)
		if err != nil {
			return err
		}
		if err := tlog.CheckRecord(proof, head.N, head.Hash, int64(n), tlog.RecordHash(line)); err != nil {
			return fmt.Errorf("entry %d: %v", n, err)
		}
	}
	return nil
}

func verify(book, checkpoint, vkey string, older []string) error {
	key, err := os.ReadFile(vkey)
	if err != nil {
		return err
	}
	verifier, err := note.NewVerifier(strings.TrimSpace(string(key)))
	if err != nil {
		return err
	}
	data, err := os.ReadFile(book)
	if err != nil {
		return err
	}
	lines := bytes.Split(data, []byte("\n"))
	if len(lines[len(lines)-1]) != 0 {
		return fmt.Errorf("the last line is cut off")
	}
	lines = lines[:len(lines)-1]
	tree, err := readTree(lines)
	if err != nil {
		return err
	}
	head, err := readCheckpoint(checkpoint, verifier)
	if err != nil {
		return err
	}
	root, err := tlog.TreeHash(int64(len(lines)), tree)
	if err != nil && len(lines) > 0 {
		return err
	}
	if head.N != int64(len(lines)) || head.Hash != root {
		return fmt.Errorf("the %d entries are not those that the checkpoint of size %d was made of", len(lines), head.N)
	}
	for _, path := range older {
		if err := checkOlder(path, verifier, head, tree); err != nil {
			return err
		}
	}
	if err := checkRecords(lines, head, tree); err != nil {
		return err
	}
	fmt.Printf("%d entries, root %v: signed by %s; %d older checkpoints agree\n", head.N, root, verifier.Name(), len(older))
	return nil
}

func main() {
	if len(os.Args) < 4 {
		fmt.Fprintln(os.Stderr, "usage: verify-book-go book.jsonl book.checkpoint book.vkey [older.checkpoint ...]")
		os.Exit(2)
	}
	if err := verify(os.Args[1], os.Args[2], os.Args[3], os.Args[4:]); err != nil {
		fmt.Fprintln(os.Stderr, "not verified:", err)
		os.Exit(1)
	}
}
