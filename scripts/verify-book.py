#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Verifies an exported book with Python's standard library alone; nothing of Fogwright is used.

    verify-book.py book.jsonl book.checkpoint book.vkey [older.checkpoint ...]
    verify-book.py --proof entry.tlog-proof entry.json book.vkey

Exit status 0: all holds. 1: something does not, and it is named. docs/record-format.md says what this proves.
"""
import base64
import hashlib
import sys


class Fault(Exception):
    pass


def demand(holds, what):
    if not holds:
        raise Fault(what)


# Merkle tree, RFC 9162 section 2.1.

def leaf_hash(data):
    return hashlib.sha256(b"\x00" + data).digest()


def node_hash(left, right):
    return hashlib.sha256(b"\x01" + left + right).digest()


def root_of(stack):
    root = hashlib.sha256(b"").digest() if not stack else stack[-1]
    for left in reversed(stack[:-1]):
        root = node_hash(left, root)
    return root


def push(stack, index, leaf):
    stack.append(leaf)
    while index & 1:
        right = stack.pop()
        stack.append(node_hash(stack.pop(), right))
        index >>= 1


def included(index, size, leaf, path, root):
    node, last = index, size - 1
    if index >= size:
        return False
    for sibling in path:
        if last == 0:
            return False
        if node & 1 or node == last:
            leaf = node_hash(sibling, leaf)
            while not node & 1 and node:
                node, last = node >> 1, last >> 1
        else:
            leaf = node_hash(leaf, sibling)
        node, last = node >> 1, last >> 1
    return last == 0 and leaf == root


# Ed25519, RFC 8032 section 5.1. Points are (X, Y, Z, T) with x = X/Z, y = Y/Z, xy = T/Z.

P = 2**255 - 19
ORDER = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, -1, P) % P


def decode_point(data):
    y, sign = int.from_bytes(data, "little") & (2**255 - 1), data[31] >> 7
    square = (y * y - 1) * pow(D * y * y + 1, -1, P) % P
    x = pow(square, (P + 3) // 8, P)
    if (x * x - square) % P:
        x = x * pow(2, (P - 1) // 4, P) % P
    if (x * x - square) % P or y >= P or (x == 0 and sign):
        return None
    x = P - x if x & 1 != sign else x
    return x, y, 1, x * y % P


def add(p, q):
    a, b = (p[1] - p[0]) * (q[1] - q[0]) % P, (p[1] + p[0]) * (q[1] + q[0]) % P
    c, d = 2 * p[3] * q[3] * D % P, 2 * p[2] * q[2] % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return e * f % P, g * h % P, f * g % P, e * h % P


def multiply(scalar, point):
    result = (0, 1, 1, 0)
    while scalar:
        if scalar & 1:
            result = add(result, point)
        point, scalar = add(point, point), scalar >> 1
    return result


def same_point(p, q):
    return (p[0] * q[2] - q[0] * p[2]) % P == 0 and (p[1] * q[2] - q[1] * p[2]) % P == 0


BASE = decode_point((4 * pow(5, -1, P) % P).to_bytes(32, "little"))


def ed25519_holds(public_key, message, signature):
    if len(signature) != 64:
        return False
    key, r, s = decode_point(public_key), decode_point(signature[:32]), int.from_bytes(signature[32:], "little")
    if key is None or r is None or s >= ORDER:
        return False
    challenge = int.from_bytes(hashlib.sha512(signature[:32] + public_key + message).digest(), "little") % ORDER
    return same_point(multiply(s, BASE), add(r, multiply(challenge, key)))


# Keys, notes and checkpoints, C2SP signed-note v1.0.0 and tlog-checkpoint v1.0.0.

def read_vkey(text):
    name, key_id, key = text.strip().split("+", 2)
    material = base64.b64decode(key, validate=True)
    demand(len(material) == 33 and material[0] == 1, "the vkey is not an Ed25519 key")
    wanted = hashlib.sha256(name.encode() + b"\n" + material).digest()[:4]
    demand(bytes.fromhex(key_id) == wanted, "the id in the vkey does not fit the key")
    return name, wanted, material[1:]


def open_checkpoint(note, vkey):
    """Size and root of a checkpoint whose signature by this key holds."""
    name, key_id, public_key = vkey
    demand(b"\n\n" in note and note.endswith(b"\n"), "the checkpoint is not a signed note")
    text, _, lines = note.rpartition(b"\n\n")
    text += b"\n"
    signatures = [line.split(" ") for line in lines.decode().splitlines()]
    ours = [base64.b64decode(s[2], validate=True) for s in signatures if len(s) == 3 and s[:2] == ["\u2014", name]]
    ours = [s[4:] for s in ours if s[:4] == key_id]
    demand(ours, "the checkpoint has no signature of " + name)
    demand(all(ed25519_holds(public_key, text, s) for s in ours), "the signature on the checkpoint does not hold")
    origin, size, root, rest = text.decode().split("\n")
    root = base64.b64decode(root, validate=True)
    demand(origin == name and rest == "" and len(root) == 32, "the checkpoint is not of this book")
    demand(size.isascii() and size.isdigit() and str(int(size)) == size, "the size in the checkpoint is malformed")
    return int(size), root


def read(path):
    with open(path, "rb") as file:
        return file.read()


def verify_book(book, checkpoint, vkey, *older):
    vkey = read_vkey(read(vkey).decode())
    wanted = [(path, *open_checkpoint(read(path), vkey)) for path in (checkpoint, *older)]
    stack, count, fitting = [], 0, set()

    def compare():
        for path, size, root in wanted:
            if size == count:
                demand(root_of(stack) == root, f"the first {size} entries are not those that {path} was made of")
                fitting.add(path)

    compare()
    with open(book, "rb") as lines:
        for line in lines:
            demand(line.endswith(b"\n"), f"entry {count}: the line is cut off")
            line = line[:-1]
            demand(line.endswith(b',"seq":%d,"v":1}' % count), f"entry {count}: its sequence number is another one")
            push(stack, count, leaf_hash(line))
            count += 1
            compare()
    for path, size, _ in wanted:
        demand(path in fitting, f"the book has {count} entries, {path} was made of {size}")
    demand(wanted[0][1] == count, f"the checkpoint covers {wanted[0][1]} of {count} entries")
    print(f"{count} entries, root {base64.b64encode(root_of(stack)).decode()}: signed by {vkey[0]}; "
          f"{len(older)} older checkpoints agree")


def verify_proof(proof, entry, vkey):
    vkey = read_vkey(read(vkey).decode())
    head, _, note = read(proof).partition(b"\n\n")
    lines = head.decode().split("\n")
    demand(lines.pop(0) == "c2sp.org/tlog-proof@v1", "this is not a tlog-proof")
    if lines and lines[0].startswith("extra "):
        lines.pop(0)
    demand(lines and lines[0].startswith("index "), "the proof has no index")
    index, path = int(lines[0][6:]), [base64.b64decode(line, validate=True) for line in lines[1:]]
    demand(all(len(hash) == 32 for hash in path), "a hash of the proof has not 32 bytes")
    size, root = open_checkpoint(note, vkey)
    leaf = leaf_hash(read(entry).removesuffix(b"\n"))
    demand(included(index, size, leaf, path, root), "the proof does not show this entry in the book")
    print(f"entry {index} of {size}, signed by {vkey[0]}")


def main(arguments):
    try:
        if len(arguments) == 4 and arguments[0] == "--proof":
            verify_proof(*arguments[1:])
        elif len(arguments) >= 3 and not arguments[0].startswith("-"):
            verify_book(*arguments)
        else:
            print(__doc__, file=sys.stderr)
            return 2
    except (Fault, ValueError, OSError) as fault:
        print(f"not verified: {fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
