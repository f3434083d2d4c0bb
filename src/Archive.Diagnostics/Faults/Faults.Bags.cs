namespace Archive.Diagnostics;

/// <content>Bags and other lists of checksums.</content>
public static partial class Faults
{
    /// <summary>folder that does not say that it is a bag.</summary>
    public static readonly FaultKind NoBagDeclaration = Error("AF1201", "folder that does not say that it is a bag");

    /// <summary>declaration of a bag that is not of its form.</summary>
    public static readonly FaultKind BagDeclarationMalformed = Error("AF1202", "declaration of a bag that is not of its form");

    /// <summary>version of BagIt that is not known.</summary>
    public static readonly FaultKind BagVersionUnknown = Error("AF1203", "version of BagIt that is not known");

    /// <summary>required part of a bag is missing.</summary>
    public static readonly FaultKind BagPartMissing = Error("AF1204", "required part of a bag is missing");

    /// <summary>line of a list of checksums that cannot be read.</summary>
    public static readonly FaultKind ManifestLine = Error("AF1205", "line of a list of checksums that cannot be read");

    /// <summary>path that leaves the bag.</summary>
    public static readonly FaultKind PathLeavesBag = Error("AF1206", "path that leaves the bag");

    /// <summary>listed file is missing.</summary>
    public static readonly FaultKind ListedFileMissing = Error("AF1207", "listed file is missing");

    /// <summary>file that no list vouches for.</summary>
    public static readonly FaultKind UnlistedFile = Error("AF1208", "file that no list vouches for");

    /// <summary>file differs from its checksum.</summary>
    public static readonly FaultKind FileDiffers = Error("AF1209", "file differs from its checksum");

    /// <summary>file listed twice.</summary>
    public static readonly FaultKind FileListedTwice = Error("AF1210", "file listed twice");

    /// <summary>file listed twice with the same checksum.</summary>
    public static readonly FaultKind FileListedAgain = Warning("AF1211", "file listed twice with the same checksum");

    /// <summary>names that some systems do not tell apart.</summary>
    public static readonly FaultKind NamesAlike = Warning("AF1212", "names that some systems do not tell apart");

    /// <summary>line of a manifest in an unusual hand.</summary>
    public static readonly FaultKind ManifestHabit = Warning("AF1213", "line of a manifest in an unusual hand");

    /// <summary>payload is not of the size it was.</summary>
    public static readonly FaultKind PayloadSize = Error("AF1214", "payload is not of the size it was");

    /// <summary>tag manifest that lists too much or too little.</summary>
    public static readonly FaultKind TagManifestScope = Error("AF1215", "tag manifest that lists too much or too little");

    /// <summary>line of `fetch.txt` that cannot be read.</summary>
    public static readonly FaultKind FetchLine = Error("AF1216", "line of `fetch.txt` that cannot be read");

    /// <summary>line of `bag-info.txt` that cannot be read.</summary>
    public static readonly FaultKind InfoLine = Error("AF1217", "line of `bag-info.txt` that cannot be read");

    /// <summary>checksum of a kind that is not known.</summary>
    public static readonly FaultKind DigestUnknown = Error("AF1218", "checksum of a kind that is not known");

    /// <summary>name that some systems cannot hold.</summary>
    public static readonly FaultKind NameTrouble = Warning("AF1219", "name that some systems cannot hold");

    /// <summary>file that cannot be read back.</summary>
    public static readonly FaultKind FileUnreadable = Error("AF1220", "file that cannot be read back");

    /// <summary>original that nothing vouches for.</summary>
    public static readonly FaultKind PhotoWithoutSum = Warning("AF1221", "original that nothing vouches for");

    /// <summary>list that is not written in its encoding.</summary>
    public static readonly FaultKind TagEncoding = Error("AF1222", "list that is not written in its encoding");

    /// <summary>value in `bag-info.txt` that is not of its form.</summary>
    public static readonly FaultKind InfoValue = Warning("AF1223", "value in `bag-info.txt` that is not of its form");

    /// <summary>link in a bag.</summary>
    public static readonly FaultKind BagLink = Error("AF1224", "link in a bag");

    /// <summary>file to be fetched that no manifest lists.</summary>
    public static readonly FaultKind FetchUnlisted = Error("AF1225", "file to be fetched that no manifest lists");

    /// <summary>fetched file of another length.</summary>
    public static readonly FaultKind FetchLength = Warning("AF1226", "fetched file of another length");

    /// <summary>withheld original of which nothing was said.</summary>
    public static readonly FaultKind WithheldUndecided = Error("AF1227", "withheld original of which nothing was said");

    /// <summary>bag that is there already.</summary>
    public static readonly FaultKind SealTaken = Error("AF1228", "bag that is there already");

    /// <summary>another sealing is at work.</summary>
    public static readonly FaultKind SealBusy = Error("AF1229", "another sealing is at work");

    /// <summary>packed bag that is not one folder.</summary>
    public static readonly FaultKind PackedShape = Error("AF1230", "packed bag that is not one folder");

    /// <summary>name that is packed twice.</summary>
    public static readonly FaultKind PackedTwice = Error("AF1231", "name that is packed twice");

    /// <summary>packed file that grows beyond measure.</summary>
    public static readonly FaultKind PackedGrowth = Error("AF1232", "packed file that grows beyond measure");

    /// <summary>packed bag that cannot be read.</summary>
    public static readonly FaultKind PackedUnreadable = Error("AF1233", "packed bag that cannot be read");

    /// <summary>file that no bag can hold.</summary>
    public static readonly FaultKind NotSealable = Error("AF1234", "file that no bag can hold");

    /// <summary>packed name that unpackers change.</summary>
    public static readonly FaultKind PackedNameChanges = Error("AF1239", "packed name that unpackers change");

    /// <summary>packed file whose two headers differ.</summary>
    public static readonly FaultKind PackedHeadersDiffer = Error("AF1240", "packed file whose two headers differ");

    /// <summary>hidden or overlapping bytes in a packed bag.</summary>
    public static readonly FaultKind PackedHidden = Error("AF1241", "hidden or overlapping bytes in a packed bag");

    /// <summary>packed bag whose list contradicts itself.</summary>
    public static readonly FaultKind PackedListContradicts = Error("AF1242", "packed bag whose list contradicts itself");

    /// <summary>encrypted file in a packed bag.</summary>
    public static readonly FaultKind PackedEncrypted = Error("AF1243", "encrypted file in a packed bag");

    /// <summary>packed file that does not unpack to what its headers say.</summary>
    public static readonly FaultKind PackedDataDiffers = Error("AF1244", "packed file that does not unpack to what its headers say");

    /// <summary>packed file that some unpackers take for something else.</summary>
    public static readonly FaultKind PackedKind = Error("AF1245", "packed file that some unpackers take for something else");

    /// <summary>pipe, device or socket among files.</summary>
    public static readonly FaultKind AuditedSpecialFile = Error("AF1246", "pipe, device or socket among files");

    /// <summary>place where no bag may lie.</summary>
    public static readonly FaultKind SealPlaceUnfit = Error("AF1235", "place where no bag may lie");
}
