global using CommonGround.Storage.Saving;
