namespace Archive.Diagnostics.Descriptors;

/// <content>Bags and other lists of checksums.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor NoBagDeclaration = Error("AF1201", "folder not marked as a bag");

    public static readonly DiagnosticDescriptor BagDeclarationMalformed = Error("AF1202", "malformed bag declaration");

    public static readonly DiagnosticDescriptor BagVersionUnknown = Error("AF1203", "unknown version of BagIt");

    public static readonly DiagnosticDescriptor BagPartMissing = Error("AF1204", "required part of a bag is missing");

    public static readonly DiagnosticDescriptor ManifestLine = Error("AF1205", "malformed line in a list of checksums");

    public static readonly DiagnosticDescriptor PathLeavesBag = Error("AF1206", "path that leaves the bag");

    public static readonly DiagnosticDescriptor ListedFileMissing = Error("AF1207", "listed file is missing");

    public static readonly DiagnosticDescriptor UnlistedFile = Error("AF1208", "file that is not listed");

    public static readonly DiagnosticDescriptor FileDiffers = Error("AF1209", "file does not match its checksum");

    public static readonly DiagnosticDescriptor FileListedTwice = Error("AF1210", "file listed twice");

    public static readonly DiagnosticDescriptor FileListedAgain = Warning("AF1211", "file listed twice with the same checksum");

    public static readonly DiagnosticDescriptor NamesAlike = Warning("AF1212", "names that are the same on some systems");

    public static readonly DiagnosticDescriptor ManifestHabit = Warning("AF1213", "unusual form of a manifest line");

    public static readonly DiagnosticDescriptor PayloadSize = Error("AF1214", "payload has changed in size");

    public static readonly DiagnosticDescriptor TagManifestScope = Error("AF1215", "tag manifest that lists too much or too little");

    public static readonly DiagnosticDescriptor FetchLine = Error("AF1216", "malformed line in `fetch.txt`");

    public static readonly DiagnosticDescriptor InfoLine = Error("AF1217", "malformed line in `bag-info.txt`");

    public static readonly DiagnosticDescriptor DigestUnknown = Error("AF1218", "unknown checksum algorithm");

    public static readonly DiagnosticDescriptor NameTrouble = Warning("AF1219", "name that some systems cannot store");

    public static readonly DiagnosticDescriptor FileUnreadable = Error("AF1220", "file that cannot be read");

    public static readonly DiagnosticDescriptor PhotoWithoutSum = Warning("AF1221", "original without a checksum");

    public static readonly DiagnosticDescriptor TagEncoding = Error("AF1222", "list that does not match its encoding");

    public static readonly DiagnosticDescriptor InfoValue = Warning("AF1223", "malformed value in `bag-info.txt`");

    public static readonly DiagnosticDescriptor BagLink = Error("AF1224", "link in a bag");

    public static readonly DiagnosticDescriptor FetchUnlisted = Error("AF1225", "file in `fetch.txt` that no manifest lists");

    public static readonly DiagnosticDescriptor FetchLength = Warning("AF1226", "downloaded file with the wrong length");

    public static readonly DiagnosticDescriptor WithheldUndecided = Error("AF1227", "originals to withhold, and --withheld is missing");

    public static readonly DiagnosticDescriptor SealTaken = Error("AF1228", "bag that already exists");

    public static readonly DiagnosticDescriptor SealBusy = Error("AF1229", "another seal is running");

    public static readonly DiagnosticDescriptor PackedShape = Error("AF1230", "packed bag that is not one folder");

    public static readonly DiagnosticDescriptor PackedTwice = Error("AF1231", "name packed twice");

    public static readonly DiagnosticDescriptor PackedGrowth = Error("AF1232", "packed file that expands too much");

    public static readonly DiagnosticDescriptor PackedUnreadable = Error("AF1233", "packed bag that cannot be read");

    public static readonly DiagnosticDescriptor NotSealable = Error("AF1234", "file that cannot be in a bag");

    public static readonly DiagnosticDescriptor PackedNameChanges = Error("AF1239", "packed name that unpackers change");

    public static readonly DiagnosticDescriptor PackedHeadersDiffer = Error("AF1240", "packed file whose two headers differ");

    public static readonly DiagnosticDescriptor PackedHidden = Error("AF1241", "hidden or overlapping bytes in a packed bag");

    public static readonly DiagnosticDescriptor PackedListContradicts = Error("AF1242", "packed bag whose list contradicts itself");

    public static readonly DiagnosticDescriptor PackedEncrypted = Error("AF1243", "encrypted file in a packed bag");

    public static readonly DiagnosticDescriptor PackedDataDiffers = Error("AF1244", "packed file that does not match its headers");

    public static readonly DiagnosticDescriptor PackedKind = Error("AF1245", "packed file that some unpackers read differently");

    public static readonly DiagnosticDescriptor AuditedSpecialFile = Error("AF1246", "pipe, device or socket among files");

    public static readonly DiagnosticDescriptor SealPlaceUnfit = Error("AF1235", "place where a bag cannot be");
}
