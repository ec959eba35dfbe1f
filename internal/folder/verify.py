"""Verifies a bundle of safety records: python3 verify.py, in the folder where its files are. Python 3 and nothing else."""
import hashlib, json, sys


def sha(data):
    return hashlib.sha256(data).hexdigest()


def fail(text):
    sys.exit("NOT AS IT WAS SEALED: " + text)


seal = json.load(open("seal.json", encoding="utf-8"))
raw = open("contents.json", "rb").read()
contents = json.loads(raw)
if sha(raw) != seal["contents"]:
    fail("contents.json was changed")
readings = sha(open("readings.csv", "rb").read())
if not readings == seal["readings"] == contents["readings"]["sha256"]:
    fail("readings.csv was changed")

found, before, last, signed = {}, None, None, []
for line in open("entries.jsonl", "rb"):
    e = json.loads(line)
    body = line[line.index(b',"body":') + 8 : line.rindex(b',"prev":')]
    fields = ["kettlefrost entry 1", e["seq"], e["id"], e["kind"], e["happened_ms"], e["entered_ms"],
              e["who"], e["device"], e["site"], e["corrects"], body, e["prev"]]
    fields = [f if isinstance(f, bytes) else str(f).encode() for f in fields]
    if sha(b"".join(b"%d:%s," % (len(f), f) for f in fields)) != e["hash"]:
        fail("entry %d was changed" % e["seq"])
    if seal["whole"] and e["seq"] != (before["seq"] if before else 0) + 1:
        fail("before entry %d another is missing" % e["seq"])
    if (before or seal["whole"]) and e["seq"] == (before["seq"] if before else 0) + 1:
        if e["prev"] != (before["hash"] if before else "0" * 64):
            fail("entry %d does not follow the one before it" % e["seq"])
    found[e["seq"]] = e["hash"]
    if e["kind"] == "signed" and e["body"]["about"] == seal["about"] and e["body"].get("hash") == seal["contents"]:
        signed.append("%s as %s (entry %d)" % (e["who"], e["body"]["as"], e["seq"]))
    before = e
if seal["whole"] and (not before or [before["seq"], before["hash"]] != [seal["chain"]["seq"], seal["chain"]["hash"]]):
    fail("the chain does not end where seal.json says")
for e in contents["entries"]:
    if found.get(e["seq"]) != e["hash"]:
        fail("entry %d of contents.json is not in entries.jsonl" % e["seq"])

print("contents.json, readings.csv and %d entries are as they were sealed." % len(found))
print("The whole chain is there." if seal["whole"] else "Only entries that the folder rests on are there: that none was left out is not shown.")
print("Signed by: " + ("; ".join(signed) or "nobody") + ". Whether a signature was taken back stands in folder.pdf and seal.json.")
