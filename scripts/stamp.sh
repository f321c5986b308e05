# Sourced by what builds programs that ship: which commit they are of, told to the linker, since Go is not let look into the repository
# everywhere; and the time of that commit, which is the time of everything that is made from it.
commit=$(git rev-parse HEAD)
[ -z "$(git status --porcelain --untracked-files=no)" ] || commit=$commit-changed
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
export SOURCE_DATE_EPOCH
stamp="-s -w -X main.commit=$commit -X main.date=$(date -u -d "@$SOURCE_DATE_EPOCH" +%FT%TZ)"
