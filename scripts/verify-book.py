#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Verifies an exported book with Python's standard library alone; nothing of Fogwright is used.

    verify-book.py book.jsonl book.checkpoint book.vkey [older.checkpoint ...]
    verify-book.py --proof entry.tlog-proof entry.json book.vkey
    verify-book.py --bundle bundle.zip [book.vkey]

--witness office.vkey, once for each, demands the witness's cosignature too: on the checkpoint; of a bundle, on the
checkpoint in it that is cosigned.

Exit status 0: all holds. 1: something does not, and it is named. docs/record-format.md says what this proves.
"""
import base64
import hashlib
import json
import sys
import time
import zipfile


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


def continued(old_size, old_root, size, root, path):
    """Consistency, RFC 9162 section 2.1.4.2."""
    if not 0 < old_size <= size or old_size == size:
        return old_size == size > 0 and not path and old_root == root
    path = [old_root, *path] if old_size & (old_size - 1) == 0 else list(path)
    node, last = old_size - 1, size - 1
    while node & 1:
        node, last = node >> 1, last >> 1
    if not path:
        return False
    old = new = path[0]
    for sibling in path[1:]:
        if last == 0:
            return False
        if node & 1 or node == last:
            old, new = node_hash(sibling, old), node_hash(sibling, new)
            while not node & 1 and node:
                node, last = node >> 1, last >> 1
        else:
            new = node_hash(new, sibling)
        node, last = node >> 1, last >> 1
    return last == 0 and old == old_root and new == root


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


# Keys, notes, checkpoints and cosignatures, C2SP signed-note v1.0.0, tlog-checkpoint v1.0.0, tlog-cosignature v1.0.1.

def base64_bytes(text):
    """RFC 4648 section 4, and only its one way to write these bytes: Python lets unused bits at the end be anything."""
    found = base64.b64decode(text, validate=True)
    demand(base64.b64encode(found).decode() == text, "a Base 64 text is not written in its one way")
    return found


def read_vkey(text, kind=1):
    name, key_id, key = text.strip().split("+", 2)
    material = base64_bytes(key)
    demand(len(material) == 33 and material[0] == kind, "the vkey is not an Ed25519 key of the right kind")
    wanted = hashlib.sha256(name.encode() + b"\n" + material).digest()[:4]
    demand(key_id == wanted.hex(), "the id in the vkey does not fit the key")
    return name, wanted, material[1:]


def signatures_of(note, vkey, what):
    """The text of a note and what stands on it under this key, without the id."""
    name, key_id, _ = vkey
    demand(b"\n\n" in note and note.endswith(b"\n"), f"{what} is not a signed note")
    text, _, lines = note.rpartition(b"\n\n")
    parts = [line.split(" ") for line in lines.decode().splitlines()]
    demand(all(len(part) == 3 and part[0] == "\u2014" for part in parts), f"{what} has a malformed signature line")
    found = [base64_bytes(part[2]) for part in parts if part[1] == name]
    found = [signature[4:] for signature in found if signature[:4] == key_id]
    demand(found, f"{what} has no signature of {name}")
    return text + b"\n", found


def open_note(note, vkey, what):
    text, found = signatures_of(note, vkey, what)
    demand(all(ed25519_holds(vkey[2], text, s) for s in found), f"the signature on {what} does not hold")
    return text.decode()


def open_checkpoint(note, vkey):
    """Size and root of a checkpoint whose signature by this key holds."""
    origin, size, root, rest = open_note(note, vkey, "the checkpoint").split("\n")
    root = base64_bytes(root)
    demand(origin == vkey[0] and rest == "" and len(root) == 32, "the checkpoint is not of this book")
    demand(size.isascii() and size.isdigit() and str(int(size)) == size, "the size in the checkpoint is malformed")
    return int(size), root


def demand_witnesses(note, witnesses):
    """Each must have cosigned; tells when, by the witness's clock."""
    for path in witnesses:
        vkey = read_vkey(read(path).decode(), kind=4)
        text, found = signatures_of(note, vkey, "the checkpoint")
        for signature in found:
            seconds = int.from_bytes(signature[:8], "big")
            signed = b"cosignature/v1\ntime %d\n" % seconds + text
            demand(seconds < 2**63 and ed25519_holds(vkey[2], signed, signature[8:]),
                   f"the cosignature of {vkey[0]} does not hold")
            print(f"cosigned by {vkey[0]} at {time.strftime('%Y-%m-%d %H:%M:%S', time.gmtime(seconds))} UTC")


def read(path):
    with open(path, "rb") as file:
        return file.read()


def read_note(path):
    """A checkpoint or a proof. Reading it back from the code on a paper leaves more line breaks at its end than the one
    that belongs there; no signature covers them."""
    data = read(path)
    whole = data.rstrip(b"\r\n")
    return whole + b"\n" if b"\n" in data[len(whole):] else data


def verify_book(witnesses, book, checkpoint, vkey, *older):
    vkey = read_vkey(read(vkey).decode())
    wanted = [(path, *open_checkpoint(read_note(path), vkey)) for path in (checkpoint, *older)]
    demand_witnesses(read_note(checkpoint), witnesses)
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


def proof_parts(proof):
    """Index, path and checkpoint note of a tlog-proof."""
    head, _, note = proof.partition(b"\n\n")
    lines = head.decode().split("\n")
    demand(lines.pop(0) == "c2sp.org/tlog-proof@v1", "this is not a tlog-proof")
    if lines and lines[0].startswith("extra "):
        lines.pop(0)
    demand(lines and lines[0].startswith("index "), "the proof has no index")
    return int(lines[0][6:]), hashes_of(lines[1:]), note


def hashes_of(lines):
    hashes = [base64_bytes(line) for line in lines]
    demand(all(len(hash) == 32 for hash in hashes), "a hash of the proof has not 32 bytes")
    return hashes


def verify_proof(witnesses, proof, entry, vkey):
    vkey = read_vkey(read(vkey).decode())
    index, path, note = proof_parts(read_note(proof))
    size, root = open_checkpoint(note, vkey)
    demand_witnesses(note, witnesses)
    leaf = leaf_hash(read(entry).removesuffix(b"\n"))
    demand(included(index, size, leaf, path, root), "the proof does not show this entry in the book")
    print(f"entry {index} of {size}, signed by {vkey[0]}")


# Bundles, docs/record-format.md.

def members_of(path):
    with zipfile.ZipFile(path) as archive:
        names = archive.namelist()
        demand(len(set(names)) == len(names), "a member stands in the bundle twice")
        return {name: archive.read(name) for name in names}


def check_manifest(members, vkey):
    """Every member but the manifest itself must be listed in it, and no other: the book's key signed that list."""
    lines = open_note(members["manifest.txt"], vkey, "the manifest").splitlines()
    demand(lines[:2] == ["fogwright evidence bundle v1", f"book {vkey[0]}"], "the manifest is not of this book")
    listed = dict(reversed(line.split("  ", 1)) for line in lines[2:])
    for name in sorted((set(members) | set(listed)) - {"manifest.txt"}):
        demand(name in listed and name in members, f"{name} is listed or there, but not both")
        demand(hashlib.sha256(members[name]).hexdigest() == listed[name], f"{name} was changed")


def check_entries(members, size, root, note):
    stack, leaves = [], members["entries.jsonl"].splitlines(True)
    for number, line in enumerate(leaves):
        demand(line.endswith(b"\n"), "the last entry is cut off")
        leaf = line[:-1]
        seq = json.loads(leaf)["seq"]
        demand(leaf.endswith(b',"seq":%d,"v":1}' % seq), f"entry {seq}: its sequence number is another one")
        if len(leaves) == size:
            demand(seq == number, f"entry {seq} is not in its place")
            push(stack, number, leaf_hash(leaf))
            continue
        index, path, checkpoint = proof_parts(members[f"proofs/{seq}.tlog-proof"])
        demand(checkpoint == note and index == seq, f"the proof of entry {seq} is of something else")
        demand(included(index, size, leaf_hash(leaf), path, root), f"entry {seq} is not in the book")
    demand(len(leaves) < size or root_of(stack) == root, "the entries are not those that the checkpoint was made of")
    return [json.loads(leaf) for leaf in leaves]


def check_private(members, entries):
    """What stands beside the record must have the salted hash that stands in an entry."""
    text = json.dumps(entries)
    for line in members.get("private.jsonl", b"").splitlines():
        kept = {name: base64_bytes(value) for name, value in json.loads(line).items()}
        digest = hashlib.sha256(kept["salt"] + kept["data"]).hexdigest()
        demand(f'"{digest}"' in text, "private data does not belong to an entry of the bundle")


def check_cosigned(members, vkey, size, root, witnesses):
    """The cosigned checkpoint may be an older one: then it must be shown that the book goes on from it."""
    note = members.get("cosigned.checkpoint", members["book.checkpoint"])
    demand_witnesses(note, witnesses)
    if "cosigned.checkpoint" not in members:
        return size
    old_size, old_root = open_checkpoint(note, vkey)
    first, *path = members["cosigned.proof"].decode().splitlines()
    demand(first == f"old {old_size}" and continued(old_size, old_root, size, root, hashes_of(path)),
           "the book does not go on from the cosigned checkpoint")
    return old_size


def verify_bundle(witnesses, bundle, trusted=None):
    members = members_of(bundle)
    for name in ("manifest.txt", "book.vkey", "book.checkpoint", "entries.jsonl"):
        demand(name in members, f"the bundle has no {name}")
    vkey = read_vkey(read(trusted).decode() if trusted else members["book.vkey"].decode())
    check_manifest(members, vkey)
    size, root = open_checkpoint(members["book.checkpoint"], vkey)
    entries = check_entries(members, size, root, members["book.checkpoint"])
    check_private(members, entries)
    covered = check_cosigned(members, vkey, size, root, witnesses)
    later = sum(entry["seq"] >= covered for entry in entries)
    print(f"{len(entries)} of {size} entries, {len(members)} members: signed by {vkey[0]}")
    if witnesses and later:
        print(f"{later} of the entries came after the cosigned checkpoint of {covered}")
    if not trusted:
        print(f"the key is the bundle's own: compare it with the one you know: {members['book.vkey'].decode().strip()}")


def main(arguments):
    witnesses = []
    while "--witness" in arguments[:-1]:
        at = arguments.index("--witness")
        witnesses.append(arguments[at + 1])
        del arguments[at:at + 2]
    try:
        if len(arguments) == 4 and arguments[0] == "--proof":
            verify_proof(witnesses, *arguments[1:])
        elif len(arguments) in (2, 3) and arguments[0] == "--bundle":
            verify_bundle(witnesses, *arguments[1:])
        elif len(arguments) >= 3 and not arguments[0].startswith("-"):
            verify_book(witnesses, *arguments)
        else:
            print(__doc__, file=sys.stderr)
            return 2
    except (Fault, ValueError, KeyError, OSError, zipfile.BadZipFile) as fault:
        print(f"not verified: {fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
